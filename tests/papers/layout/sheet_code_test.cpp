#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/layout/decoders.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/pdf/picture.hpp"
#include "papers/pdf/writer.hpp"

// The code on the household sheet, read back by ZBar and ZXing from the page as poppler paints it.

using namespace gallipot;
using namespace gallipot::tests;

TEST_CASE("the code on the household sheet is read by both decoders", "[scan]") {
    const std::string path = GALLIPOT_SOURCE_DIR "/examples/hall.yaml";
    const auto source = std::make_shared<const diag::Source>(diag::Source{path, slurp(path)});
    diag::Diagnostics out;
    const auto job = job::read_job(source, out);
    REQUIRE(job);
    const auto who = safety::who_to_call(job->help, out);
    const auto plan = plan::make_plan(*job, {}, out);
    for (const std::string link :
         {"HTTP://192.168.1.20:8017/HOME/7Q2MX4KD9A", "HTTP://10.0.0.2/HOME/ZZZZZZZZZZ",
          "HTTPS://LOG.WEIR-STREET-HALL.EXAMPLE/baits/of/the/hall/HOME/7Q2MX4KD9A"}) {
        // The longest title and a short one.
        for (const std::string language : {"en", "uk"}) {
            const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", language, "AU", out);
            const auto sheet = document::household_sheet(*job, plan, who, words, nullptr, link);
            const auto paper = layout::lay_out({"Title", "", words.tag(), {sheet}},
                                               layout::a4_style(), installed_faces());
            const TemporaryFile pdf(pdf::write(paper, installed_faces()), ".pdf");
            for (const double dpi : {200.0, 300.0}) {
                INFO(link << " in " << language << " at " << dpi);
                const Picture page(pdf, 1, dpi);
                Image image(page.width(), page.height());
                for (int y = 0; y < image.height; ++y)
                    for (int x = 0; x < image.width; ++x)
                        image.at(x, y) = static_cast<std::uint8_t>(page.at_dot(x, y));
                CHECK(read_by_zbar(image) == std::multiset<std::string>{link});
                CHECK(read_by_zxing(image) == link);
            }
        }
    }
}
