#include "web/photo_parts.hpp"

#include "tracking/log/fields.hpp"

namespace gallipot::web {
namespace {

/// Shown as large as it is in the style sheet; the picture has twice as many pixels.
Html small_photo(const Page& page, const log::PhotoId& id, const std::string& says) {
    if (!page.context.log.photos().has(id))
        return element("span", {{"class", "gone"}}, {page.words("web.photos.gone")});
    const std::string link = page.root + "ALL/PHOTO/" + id;
    return element("a", {{"href", link}, {"class", "photo"}},
                   {lone("img", {{"src", link + "?small=1"}, {"alt", says}, {"loading", "lazy"}})});
}

}  // namespace

Html photos_of(const Page& page, const log::Entry& entry) {
    Html photos;
    std::int64_t number = 0;
    for (const log::PhotoId& id : entry.photos)
        photos += small_photo(
            page, id,
            page.words("web.photos.alt", {{"n", ++number},
                                          {"station", log::print_target(entry.visit)},
                                          {"time", page.words.date_time(entry.visit.time)}}));
    if (photos.empty()) return {};
    return element("div", {{"class", "photos"}}, {photos});
}

Html photo_field(const Page& page, const Fields& fields, const FormData& data) {
    const auto& words = page.words;
    Html kept;
    std::int64_t number = 0;
    for (const log::PhotoId& id : data.photos) {
        const std::string name = words("web.photos.keep", {{"n", ++number}});
        kept += element(
            "div", {{"class", "kept"}},
            {small_photo(page, id, name), fields.choice("checkbox", "kept", id, true, name)});
    }
    Html html = hidden("photos", "yes");
    if (!kept.empty()) html += element("div", {{"class", "photos"}}, {kept});
    return html + fields.photos("photo");
}

}  // namespace gallipot::web
