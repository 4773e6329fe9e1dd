#include "papers/document/caretaker_sheet.hpp"

namespace gallipot::document {

Sheet caretaker_sheet(const job::Job& job, const std::string& link, const text::Catalog& words) {
    Sheet sheet;
    sheet.bookmark = words("paper.caretaker");
    sheet.kicker = words.rich("caretaker.kicker", {{"job", job.title->in(words.tag())}});
    sheet.title = words.rich("caretaker.title");
    sheet.blocks.emplace_back(Code{link,
                                   {words.rich("caretaker.scan"), words.rich("caretaker.private"),
                                    words.rich("caretaker.link", {{"link", link}})}});
    sheet.blocks.emplace_back(Heading{words.rich("caretaker.keep.heading")});
    std::vector<Runs> keep;
    for (const char* item : {"serve", "secret", "backup"})
        keep.push_back(words.rich(std::string("caretaker.keep.") + item));
    sheet.blocks.emplace_back(bullets(std::move(keep)));
    sheet.footer_left = words.rich("card.footer");
    sheet.footer_right = words.rich("card.made", {{"made", job.prepared.value}});
    return sheet;
}

}  // namespace gallipot::document
