#include "cli/examples.hpp"

#include <map>

namespace gallipot::cli {

const std::vector<Example>& examples_of(std::string_view command) {
    static const std::map<std::string_view, std::vector<Example>> all{
        {"",
         {{"gallipot new job.yaml", "a job file to start from"},
          {"gallipot check job.yaml", "what is wrong with it, and what to do"},
          {"gallipot render job.yaml", "the papers, in the folder papers"}}},
        {"new",
         {{"gallipot new", "a small workshop, in job.yaml"},
          {"gallipot new flat.yaml --from flat", "the flat of the examples"},
          {"gallipot new hall.yaml --from hall", "the hall, with codes that open the log"}}},
        {"check", {{"gallipot check job.yaml", "every error and warning"}}},
        {"plan",
         {{"gallipot plan job.yaml", "as tables"},
          {"gallipot plan job.yaml --json", "for programs, in SI units"}}},
        {"render",
         {{"gallipot render job.yaml", "all papers, in the folder papers"},
          {"gallipot render job.yaml -o out --only labels,cards", "only these, in the folder out"},
          {"gallipot render job.yaml --only labels --start-at 5", "on a sheet with four used up"},
          {"gallipot render job.yaml --stations K1,D1 --only labels --start-at 3",
           "new labels for two stations"},
          {"gallipot render job.yaml --only alignment", "a page to read --offset from"}}},
        {"serve",
         {{"gallipot serve job.yaml", "for this machine only"},
          {"gallipot serve job.yaml --listen 0.0.0.0:8017", "for phones on the same network"}}},
        {"visit",
         {{"gallipot visit job.yaml K1 --seen 9 --level 3/4 --by Kim", "what was found"},
          {"gallipot visit job.yaml K1-2 --state clogged,wet --did cleared", "one container"},
          {"gallipot visit job.yaml D1 --seen 4 --at '2027-03-12 08:05'", "not just now"},
          {"gallipot visit job.yaml K1 --corrects 1 --seen 8", "entry 1 was wrong"}}},
        {"log",
         {{"gallipot log job.yaml", "as a table"},
          {"gallipot log job.yaml --csv >visits.csv", "for a spreadsheet"},
          {"gallipot log job.yaml --reports", "what neighbours told"},
          {"gallipot log job.yaml --import visits.csv", "the same file twice adds nothing"},
          {"gallipot log job.yaml --recipe-was-wrong syrup", "it was never made as it was noted"},
          {"gallipot log job.yaml --backup copy.sqlite", "a whole copy, while it is served too"},
          {"gallipot log job.yaml --photos photos", "each as a file named by day and station"}}},
        {"report",
         {{"gallipot report job.yaml", "in the terminal"},
          {"gallipot report job.yaml --summary", "the same in a few lines"},
          {"gallipot report job.yaml --as-of 2027-03-20", "as it stood that evening"},
          {"gallipot report job.yaml -o report.pdf", "with plots, a file for each language"},
          {"gallipot report job.yaml --calendar next.ics", "the next rounds, for a calendar"}}},
        {"round",
         {{"gallipot round job.yaml", "the next one, in the terminal"},
          {"gallipot round job.yaml -o round", "its sheet, and cards and labels for what is made"},
          {"gallipot round job.yaml --on 2027-03-20", "what would be due on that day"},
          {"gallipot round job.yaml --json", "for programs"}}},
        {"explain",
         {{"gallipot explain", "every key of the job file"},
          {"gallipot explain spare", "one of them, by its name"},
          {"gallipot explain mixes.basis", "or by its path"}}},
        {"pests",
         {{"gallipot pests", "what may stand after 'against:', and what is known of each"},
          {"gallipot pests termites", "one of them, with every source"}}},
        {"substances",
         {{"gallipot substances", "what may stand among a mix's ingredients"},
          {"gallipot substances 'boric acid'", "one of them, with every source"}}},
        {"stocks",
         {{"gallipot stocks", "what may stand after 'labels:'"},
          {"gallipot stocks --json", "for programs"}}},
        {"fonts", {{"gallipot fonts", "which files are used, and where they were found"}}},
        {"languages", {{"gallipot languages", "what may stand after 'languages:'"}}},
        {"schema",
         {{"gallipot schema >gallipot.schema.json", "for an editor that checks as you type"}}},
    };
    static const std::vector<Example> none;
    const auto found = all.find(command);
    return found == all.end() ? none : found->second;
}

}  // namespace gallipot::cli
