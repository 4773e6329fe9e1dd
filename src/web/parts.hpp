#pragma once

#include <optional>

#include "papers/document/held_words.hpp"
#include "web/context.hpp"
#include "web/html.hpp"
#include "web/message.hpp"
#include "web/visit_form.hpp"

/// What several pages share.
namespace gallipot::web {

/// The words of one request, with what else a page is made from.
struct Page {
    const Context& context;
    const text::Catalog& words;
    std::string language_query;  ///< "?lang=es" when it was asked for by hand, else empty
    /// What the form's address ends with. It is never that of the page: a browser that sends a form
    /// to the page's own address and meets no network forgets the page with all that was typed.
    std::string form_query;
    std::string root;        ///< the way up from this page to all others: "../../"
    bool caretaker = false;  ///< asked for by a phone of the caretaker

    /// Where a station's page is, for a link on this one; and the same with the language.
    [[nodiscard]] std::string station_path(const std::string& id) const;
    [[nodiscard]] std::string station_link(const std::string& id) const;
};

/// The black band: what it is, and whom to ring. `place` none: of the whole job.
Html band(const Page& page, const std::optional<Place>& place);

/// What to do, whom to call and what to tell them; the band's link leads here.
Html first_aid(const Page& page, const std::optional<Place>& place);

/// "K1-1 and K1-2, filled 2 March".
std::string held_in(const Page& page, const document::Held& held);

/// "K1 · Kitchen, behind the bins"
std::string station_title(const Page& page, const Place& place);

/// "Sweet liquid bait, against ants"; of a control, that there is none.
std::string subtitle(const Page& page, const Place& place);

/// `shown`, which is `text` of the job, marked with its language where that is not the page's.
Html in_its_language(const Page& page, const job::LocalText& text, const std::string& shown);
/// The same of the name of a floor, which is given in the job's main language.
Html floor_in_its_language(const Page& page, const std::string& floor);

/// The heading of a station's page.
Html station_heading(const Page& page, const Place& place);

/// A page's answer to what went wrong names it so in its title.
std::string trouble_title(const Page& page, const std::string& title);

/// "today, day 16", "6 March, overdue", "12 March".
std::string due_text(const Page& page, const analysis::Due& due, const Place& place);

/// A list of terms and what they are.
Html facts(const std::vector<std::pair<std::string, Html>>& rows);

/// What a visit says, as a list of terms.
Html visit_facts(const Page& page, const visit::Visit& visit);

/// "clogged, wet" in the page's language; empty for none.
std::string states_text(const Page& page, visit::Marks<visit::State> states);
std::string dids_text(const Page& page, visit::Marks<visit::Did> dids);

/// The answer with this page: band, `main`, first aid, languages; at its end `script`, which is one
/// of the context's.
Response answer(const Page& page, int status, const std::string& title,
                const std::optional<Place>& place, const Html& main,
                const std::string& script = {});

}  // namespace gallipot::web
