#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "app/session.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::app {

/// "K1-1, K1-2 and 3 more", each name once.
diag::Text listed(const std::vector<std::string>& names);
/// "a4-2x4 (99.1 x 67.7 mm)".
std::string described(const templates::Stock& stock);

/// What is to be said about many labels is said once.
class LabelWarnings {
  public:
    /// All are kept by reference but the place.
    LabelWarnings(Session& session, const std::vector<std::string>& languages, diag::Place place)
        : session_(session), languages_(languages), place_(std::move(place)) {}

    /// A label is set so; tell() will say what of it is worth saying.
    void note(const std::string& name, const layout::LabelReport& report);
    /// One of two labels, each in a language of its own.
    void note_pair(const std::string& name) { pairs_.push_back(name); }
    void tell(const templates::Stock& stock);
    void warn(std::string code, diag::Text message, diag::Text hint);

  private:
    void tell_of_room(const templates::Stock& stock);
    void tell_of_what_is_left_out(const templates::Stock& stock);

    Session& session_;
    const std::vector<std::string>& languages_;
    diag::Place place_;
    std::vector<std::string> pairs_, small_, small_type_;
    /// By what they go on, mm.
    std::map<std::pair<double, double>, std::vector<std::string>> on_small_;
    /// By what is missing, in English.
    std::map<std::string, std::pair<diag::Text, std::vector<std::string>>> left_out_;
    double smallest_points_ = 1000;
    layout::Size asked_;
    std::map<std::string, std::vector<std::string>> codes_;
    std::map<std::string, qr::Check> worst_;
};

}  // namespace gallipot::app
