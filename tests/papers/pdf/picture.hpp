#pragma once

#include <sstream>
#include <string>

#include "papers/pdf/program.hpp"

namespace gallipot::tests {

/// A page as poppler paints it: grey from 0 (black) to 255.
class Picture {
  public:
    Picture(const TemporaryFile& pdf, int page, double dots_per_inch)
        : dots_per_mm_(dots_per_inch / 25.4) {
        std::ostringstream command;
        command << "pdftoppm -gray -r " << dots_per_inch << " -f " << page << " -l " << page << " "
                << pdf.path();
        const Ran ran = run(command.str());
        std::istringstream in(ran.output);
        std::string magic;
        int maximum = 0;
        in >> magic >> width_ >> height_ >> maximum;
        in.get();
        if (ran.status != 0 || magic != "P5" || maximum != 255) {
            throw std::runtime_error("pdftoppm: " + ran.output.substr(0, 200));
        }
        bytes_ = ran.output.substr(static_cast<std::size_t>(in.tellg()));
    }

    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] int height() const { return height_; }
    [[nodiscard]] int at_dot(int x, int y) const {
        return static_cast<unsigned char>(
            bytes_.at(static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                      static_cast<std::size_t>(x)));
    }
    /// The grey at a place in millimetres from the top left.
    [[nodiscard]] int at(double x, double y) const {
        return at_dot(static_cast<int>(x * dots_per_mm_), static_cast<int>(y * dots_per_mm_));
    }
    [[nodiscard]] double dark_share() const {
        double dark = 0;
        for (const char byte : bytes_) dark += static_cast<unsigned char>(byte) < 128 ? 1 : 0;
        return dark / static_cast<double>(bytes_.size());
    }

  private:
    double dots_per_mm_;
    int width_ = 0, height_ = 0;
    std::string bytes_;
};

}  // namespace gallipot::tests
