#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <map>
#include <numbers>
#include <random>
#include <set>

#include "catch_all.hpp"

#include "papers/layout/decoders.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/label_jobs.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/pdf/picture.hpp"
#include "papers/pdf/writer.hpp"

// Every stock printed and read back: the page as poppler paints it at the resolutions of usual
// printers, read by two decoders that know nothing of each other or of us, ZBar and ZXing. Then as
// a poor photograph of it, flat and on the cup.

using namespace gallipot;
using namespace gallipot::tests;

namespace {

/// The body the strips go round and all labels are bent on: the smallest cup of the examples.
constexpr double cup_mm = 48;

Image whole(const Picture& page) {
    Image image(page.width(), page.height());
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            image.at(x, y) = static_cast<std::uint8_t>(page.at_dot(x, y));
    return image;
}

/// The grey at a place of the page in dots; white paper beyond its edge.
double sample(const Picture& page, double x, double y) {
    const auto grey = [&](int dot_x, int dot_y) -> double {
        if (dot_x < 0 || dot_y < 0 || dot_x >= page.width() || dot_y >= page.height()) return 255;
        return page.at_dot(dot_x, dot_y);
    };
    const int left = static_cast<int>(std::floor(x)), top = static_cast<int>(std::floor(y));
    const double right = x - left, down = y - top;
    return (1 - down) * ((1 - right) * grey(left, top) + right * grey(left + 1, top)) +
           down * ((1 - right) * grey(left, top + 1) + right * grey(left + 1, top + 1));
}

/// The label's surroundings of a code, cut out: what a phone held before it sees.
Image cut(const Picture& page, const layout::Box& code, double dpi) {
    const double dots = dpi / 25.4;
    const double margin = 6 * code.width / 25;  // of a version 2 code 6 modules, more than the zone
    const int side = static_cast<int>(std::ceil((code.width + 2 * margin) * dots));
    Image image(side, side);
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x)
            image.at(x, y) = static_cast<std::uint8_t>(std::lround(
                sample(page, (code.x - margin) * dots + x, (code.y - margin) * dots + y)));
    return image;
}

/// How bad a photograph is. The symbol is `across` pixels wide: a phone that fills a third of a
/// frame of 640 pixels with it.
struct Spoiling {
    double across = 200;  ///< pixels
    double blur = 1.0;    ///< pixels, standard deviation: a hand that is not still
    double noise = 4;     ///< greys, standard deviation; ZBar gives up from about 6
    double black = 75;    ///< greys that ink and paper come out as: 45 % of full contrast
    double white = 190;
    double shade = 25;       ///< greys by which one side is darker than the other
    double turn = 12;        ///< degrees, at most, either way
    double keystone = 0.10;  ///< by which the far side looks shorter than the near one, at most
};

class Camera {
  public:
    explicit Camera(unsigned seed) : random_(seed) {}

    /// A spoiled picture of a code; on a round body of that diameter, or flat when it is 0.
    Image photograph(const Picture& page, const layout::Box& code, double dpi, double diameter,
                     const Spoiling& how) {
        const double scale = how.across / code.width;  // pixels a mm
        const int side = static_cast<int>(how.across * 1.7);
        const double turn = spread() * how.turn * std::numbers::pi / 180;
        const double tilt_x = spread() * how.keystone, tilt_y = spread() * how.keystone;
        const double slope = spread() * how.shade, level = spread() * 8;
        const double away_x = spread() * 0.15 * how.across, away_y = spread() * 0.1 * how.across;
        const double middle_x = code.x + code.width / 2, middle_y = code.y + code.width / 2;
        const double dots = dpi / 25.4;
        std::vector<double> light(static_cast<std::size_t>(side) * static_cast<std::size_t>(side));
        for (int y = 0; y < side; ++y) {
            for (int x = 0; x < side; ++x) {
                double u = (x - side / 2.0 - away_x) / scale, v = (y - side / 2.0 - away_y) / scale;
                const double far = 1 + (tilt_x * u + tilt_y * v) / code.width;
                u /= far;
                v /= far;
                double right = u * std::cos(turn) - v * std::sin(turn);
                const double down = u * std::sin(turn) + v * std::cos(turn);
                if (diameter > 0) {
                    // Seen from far in front; what turns away beyond 80 degrees is background.
                    const double over = std::clamp(2 * right / diameter, -0.985, 0.985);
                    right = diameter / 2 * std::asin(over);
                }
                const double ink =
                    sample(page, (middle_x + right) * dots, (middle_y + down) * dots) / 255;
                light[index(side, x, y)] = how.black + level + ink * (how.white - how.black) +
                                           slope * (x - side / 2.0) / side;
            }
        }
        blur(light, side, how.blur);
        Image image(side, side);
        for (int y = 0; y < side; ++y)
            for (int x = 0; x < side; ++x)
                image.at(x, y) = static_cast<std::uint8_t>(std::lround(
                    std::clamp(light[index(side, x, y)] + normal() * how.noise, 0.0, 255.0)));
        return image;
    }

  private:
    static std::size_t index(int side, int x, int y) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(side) +
               static_cast<std::size_t>(x);
    }

    static void blur(std::vector<double>& light, int side, double sigma) {
        const int reach = static_cast<int>(std::ceil(3 * sigma));
        std::vector<double> weights;
        double sum = 0;
        for (int i = -reach; i <= reach; ++i) {
            weights.push_back(std::exp(-i * i / (2 * sigma * sigma)));
            sum += weights.back();
        }
        for (const bool across : {true, false}) {
            const auto before = light;
            for (int y = 0; y < side; ++y) {
                for (int x = 0; x < side; ++x) {
                    double grey = 0;
                    for (int i = -reach; i <= reach; ++i) {
                        const int at_x = std::clamp(across ? x + i : x, 0, side - 1);
                        const int at_y = std::clamp(across ? y : y + i, 0, side - 1);
                        grey += weights[static_cast<std::size_t>(i + reach)] *
                                before[index(side, at_x, at_y)];
                    }
                    light[index(side, x, y)] = grey / sum;
                }
            }
        }
    }

    // The standard distributions differ from library to library; these do not.
    double unit() { return (static_cast<double>(random_()) + 0.5) / 4294967296.0; }
    double spread() { return 2 * unit() - 1; }
    double normal() {
        return std::sqrt(-2 * std::log(unit())) * std::cos(2 * std::numbers::pi * unit());
    }

    std::mt19937 random_;
};

/// What a code holds, and how much text stands beside it.
enum class Kind { short_link, long_link, facts };

std::string job(const std::string& region, Kind kind) {
    const bool longer = kind == Kind::long_link;
    const std::string log = kind == Kind::facts ? ""
                            : longer            ? "log:\n  address: "
                                                  "https://pests.weir-street-hall.example/log/visits/"
                                                  "{station}?from=label\n"
                                                : "log:\n  address: http://10.0.0.2\n";
    return fmt::format(
        "title: {}\nprepared: 2027-03-02\nlanguages: [en]\nhelp:\n  region: {}\n"
        "  poison_centre: {{ name: Poisons line, phone: 555-0111 }}\n  emergency: 112\n"
        "{}{}measures:\n  - {{ scale: 2 kg, marks: 0.1 g }}\n"
        "mixes:\n  bait:\n    title: {}\n    against: ants\n    form: liquid\n"
        "    basis: percent w/w\n    ingredients: {{ borax: 1, sugar: 20, water: rest }}\n"
        "    lasts: 30 d\n"
        "containers:\n  cup: {{ holds: 60 mL, fill: 45 mL, openings: open top, "
        "body: {{ diameter: {} mm, height: 44 mm }} }}\n"
        "stations:\n  - {{ id: {}, place: Behind the bins, mix: bait, container: cup, count: 2, "
        "placed: 2027-03-02 19:30 }}\n",
        longer ? "Weir Street Community Hall and Workshop" : "Hall", region,
        longer ? "  contact: { name: The caretaker of the hall, phone: (02) 5550 0142 }\n" : "",
        log, longer ? "Sweet liquid bait for the summer kitchen and the yard" : "Bait", cup_mm,
        longer ? "KITCHEN12" : "K1");
}

struct PrintedCode {
    int page = 0;  ///< from 1
    layout::Code code;
};

/// Only the labels with codes, on as few pages as they take.
struct Printed {
    layout::Paper paper;
    std::vector<PrintedCode> codes;
};

std::optional<Printed> print(const layout::LabelStock& stock, Kind kind) {
    for (const auto* region : {"AU", "US"}) {
        auto labels = labels_of(job(region, kind));
        REQUIRE(labels);
        std::erase_if(labels->labels, [](const auto& label) { return label.code.empty(); });
        REQUIRE(labels->labels.size() == 2);
        try {
            Printed printed;
            printed.paper = layout::place_labels(*labels, stock, installed_faces()).paper;
            int number = 0;
            for (const auto& page : printed.paper.pages) {
                ++number;
                for (const auto& item : page.items)
                    if (const auto* code = std::get_if<layout::Code>(&item.shape))
                        printed.codes.push_back({number, *code});
            }
            return printed;
        } catch (const layout::LayoutError&) {
            // Small labels hold what US rules ask for and not what the EU's do, or neither.
        }
    }
    return {};
}

struct Score {
    int read = 0, all = 0;
    void add(bool good) {
        read += good ? 1 : 0;
        ++all;
    }
    [[nodiscard]] double share() const { return static_cast<double>(read) / all; }
};

}  // namespace

TEST_CASE("two decoders read the code of every stock, clean from the page and from poor pictures") {
    Camera camera(8017);
    std::set<std::string> stocks;
    Score clean;
    std::map<std::string, Score> spoiled;
    for (const auto& stock : shipped_stocks()) {
        for (const auto kind : {Kind::short_link, Kind::long_link, Kind::facts}) {
            const auto printed = print(stock, kind);
            if (!printed) continue;
            stocks.insert(stock.stock.name);
            const TemporaryFile pdf(pdf::write(printed->paper, installed_faces()), ".pdf");
            for (const double dpi : {203.0, 300.0}) {
                std::map<int, std::multiset<std::string>> wanted;
                for (const auto& one : printed->codes)
                    wanted[one.page].insert(one.code.symbol->content);
                for (const auto& [number, contents] : wanted) {
                    const Picture page(pdf, number, dpi);
                    INFO(stock.stock.name << ", text " << static_cast<int>(kind) << " at " << dpi);
                    const bool all = read_by_zbar(whole(page)) == contents;
                    CHECK(all);
                    for (const auto& one : printed->codes) {
                        if (one.page != number) continue;
                        const bool read =
                            read_by_zxing(cut(page, one.code.box, dpi)) == one.code.symbol->content;
                        CHECK(read);
                        clean.add(all && read);
                        if (dpi != 300.0) continue;
                        for (const double diameter : {0.0, cup_mm}) {
                            if (diameter > 0 && stock.stock.shape == templates::Shape::circle)
                                continue;  // lids are flat
                            for (int i = 0; i < 3; ++i) {
                                const auto picture = camera.photograph(page, one.code.box, dpi,
                                                                       diameter, Spoiling{});
                                const std::string body = diameter > 0 ? ", curved" : ", flat";
                                spoiled["ZBar" + body].add(
                                    read_by_zbar(picture).count(one.code.symbol->content) > 0);
                                spoiled["ZXing" + body].add(read_by_zxing(picture) ==
                                                            one.code.symbol->content);
                            }
                        }
                    }
                }
            }
        }
    }
    CHECK(clean.read == clean.all);
    for (const auto& [name, score] : spoiled) {
        INFO(name << ": " << score.read << " of " << score.all);
        CHECK(score.share() >= 0.99);
        if (std::getenv("GALLIPOT_SCORES") != nullptr)
            WARN(name << ": " << score.read << " of " << score.all);
    }
    INFO(stocks.size() << " stocks");
    CHECK(stocks.size() >= 30);  // the smallest hold vessels only
}
