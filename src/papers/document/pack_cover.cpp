#include "papers/document/pack_cover.hpp"

#include "papers/document/notices.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

/// "4", "4 to 6".
std::string pages_from(int first, int count, const Catalog& words) {
    const auto number = [&](int n) { return words.number(n, text::Figures::whole); };
    if (count < 2) return number(first);
    return words("pack.pages", {{"first", number(first)}, {"last", number(first + count - 1)}});
}

Table contents(const std::vector<PackPart>& parts, const Catalog& words) {
    Table table;
    table.leads_to_chapters = true;
    table.columns = {{words.rich("pack.column.paper"), Align::left, 3},
                     {words.rich("pack.column.use"), Align::left, 6},
                     {words.rich("pack.column.pages"), Align::right, 0}};
    int page = 2;  // behind the cover
    for (const PackPart& part : parts) {
        table.rows.push_back({{bold(words("paper." + part.name)), {}, true},
                              {words.rich("pack.use." + part.name), {}},
                              {regular(pages_from(page, part.pages, words)), {}}});
        page += part.pages;
    }
    return table;
}

}  // namespace

Sheet pack_cover(const job::Job& job, const std::vector<PackPart>& parts,
                 const safety::WhoToCall& who, const Catalog& words) {
    Sheet sheet;
    sheet.bookmark = words("pack.bookmark");
    sheet.kicker = words.rich("pack.kicker");
    note_translation(sheet.kicker, words);
    sheet.title = regular(job.title->in(words.tag()));
    auto& blocks = sheet.blocks;
    if (auto banner = not_asked(job, words)) blocks.emplace_back(std::move(*banner));
    blocks.emplace_back(Banner{words.rich("pack.banner"), call(who, words)});
    blocks.emplace_back(Heading{words.rich("pack.heading")});
    blocks.emplace_back(contents(parts, words));
    blocks.emplace_back(Heading{words.rich("pack.also.heading")});
    std::vector<StyledText> also{words.rich("pack.also.labels"), words.rich("pack.also.pictures"),
                                 words.rich("pack.also.calendar")};
    blocks.emplace_back(bullets(std::move(also)));
    sheet.footer_left = words.rich("card.footer");
    sheet.footer_right = words.rich("card.made", {{"made", *job.prepared}});
    return sheet;
}

std::string page_label(const std::string& name, const Catalog& words) {
    return words("pack.label." + name);
}

}  // namespace gallipot::document
