// How long large label files take to write: twice the pages should take twice the time, no more.
//   bench_large_file
#include <chrono>
#include <cstdio>
#include <random>

#include "papers/fonts/fonts.hpp"
#include "papers/layout/page.hpp"
#include "papers/layout/typeset.hpp"
#include "papers/pdf/writer.hpp"

using namespace gallipot;

namespace {

const fonts::Faces& faces() {
    static const fonts::Faces found = fonts::find(GALLIPOT_SOURCE_DIR "/fonts/fonts.yaml");
    return found;
}

/// A sheet of 24 labels of six lines and a code of 33 by 33 modules each; every label differs.
layout::Page label_sheet(std::mt19937& random) {
    layout::Page page{{210, 297}, {}, {}};
    for (int label = 0; label < 24; ++label) {
        const double left = 8 + label % 3 * 66.0;
        const double top = 8 + label / 3 * 35.0;
        const std::string id = "K" + std::to_string(random() % 10000);
        const int group = layout::group_on(page, "label " + id);
        qr::Symbol symbol;
        symbol.modules = 33;
        for (int i = 0; i < 33 * 33; ++i) symbol.dark.push_back(random() % 2 == 0);
        page.items.push_back(item(
            layout::Code{{left, top, 14.2, 14.2}, std::make_shared<const qr::Symbol>(symbol)}));
        page.items.back().group = group;
        const layout::Setting text = layout::set(
            {{"DANGER not food " + id + ". ", true},
             {"Keep out of reach of children and pets. Sweet liquid bait for ants, 45 mL: borax "
              "1.0 % "
              "(0.49 g), sugar 20 %, water. Swallowed? Rinse the mouth and call. Made 2 Mar 2027, "
              "replace by 1 Apr. Home-made, not a registered product.",
              false}},
            44, {6, 7.5}, "label", faces(), "en");
        layout::place(page, text, {left + 16, top + 2}, group);
    }
    return page;
}

struct Measured {
    double seconds = 0;
    std::size_t bytes = 0;
};

Measured write_sheets(int pages) {
    std::mt19937 random(1);
    std::vector<layout::Page> sheets;
    for (int i = 0; i < pages; ++i) sheets.push_back(label_sheet(random));
    const auto start = std::chrono::steady_clock::now();
    pdf::Writer writer(faces(), "Labels", "Benchmark", "en");
    for (const layout::Page& sheet : sheets) writer.add(sheet);
    const std::string bytes = writer.finish();
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
    return {taken.count(), bytes.size()};
}

Measured write_single_labels(int pages) {
    std::mt19937 random(1);
    layout::Page label = label_sheet(random);
    label.items.resize(8);
    label.size = {60, 40};
    const auto start = std::chrono::steady_clock::now();
    pdf::Writer writer(faces(), "Labels", "Benchmark", "en");
    for (int i = 0; i < pages; ++i) writer.add(label);
    const std::size_t bytes = writer.finish().size();
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
    return {taken.count(), bytes};
}

}  // namespace

int main() {
    for (const int pages : {1, 50, 100, 200, 400, 800}) {
        const Measured measured = write_sheets(pages);
        std::printf("%5d sheets of 24 labels: %7.3f s, %6.2f ms a sheet, %5.0f bytes a label\n",
                    pages, measured.seconds, 1000 * measured.seconds / pages,
                    static_cast<double>(measured.bytes) / (24.0 * pages));
    }
    for (const int pages : {2500, 5000, 10000}) {
        const Measured measured = write_single_labels(pages);
        std::printf("%5d pages of one label:  %7.3f s, %6.2f ms a page,  %5.0f bytes a label\n",
                    pages, measured.seconds, 1000 * measured.seconds / pages,
                    static_cast<double>(measured.bytes) / pages);
    }
}
