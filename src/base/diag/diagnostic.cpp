#include "base/diag/diagnostic.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace gallipot::diag {

void Diagnostics::error(std::string code, Place place, Text message, Text hint) {
    add({Severity::error, std::move(code), std::move(place), std::move(message), std::move(hint)});
}

void Diagnostics::warning(std::string code, Place place, Text message, Text hint) {
    add({Severity::warning, std::move(code), std::move(place), std::move(message),
         std::move(hint)});
}

void Diagnostics::add(Diagnostic found) {
    if (found.code.empty() || found.message.empty() || found.hint.empty()) {
        throw std::logic_error("a diagnostic needs a code, a message and a hint: " + found.code +
                               " " + found.message.english());
    }
    const bool wrong = found.severity == Severity::error;
    if ((wrong ? errors_ : warnings_) >= kept) {
        ++(wrong ? errors_ : warnings_);
        return;
    }
    // What an alias repeats is wrong once.
    const bool is_new = seen_
                            .emplace(found.place.source.get(), found.place.line, found.place.column,
                                     found.code, found.message.english())
                            .second;
    if (!is_new) return;
    ++(wrong ? errors_ : warnings_);
    all_.push_back(std::move(found));
}

void Diagnostics::append(const Diagnostics& other) {
    for (const Diagnostic& found : other.all_) add(found);
    // What the other only counted is counted here too.
    const auto stored = [&](Severity severity) {
        return static_cast<std::size_t>(
            std::count_if(other.all_.begin(), other.all_.end(),
                          [&](const Diagnostic& d) { return d.severity == severity; }));
    };
    errors_ += other.errors_ - stored(Severity::error);
    warnings_ += other.warnings_ - stored(Severity::warning);
}

bool Diagnostics::has_errors() const {
    return errors_ > 0;
}
std::size_t Diagnostics::errors() const {
    return errors_;
}
std::size_t Diagnostics::warnings() const {
    return warnings_;
}

std::vector<Diagnostic> Diagnostics::in_order() const {
    // Files in the order in which they first had something wrong.
    std::map<const Source*, std::size_t> files;
    for (const Diagnostic& found : all_) {
        files.emplace(found.place.source.get(), files.size());
    }
    const auto key = [&](const Diagnostic& d) {
        const bool nowhere = d.place.source == nullptr;
        return std::tuple(nowhere, files.at(d.place.source.get()), d.place.line == 0, d.place.line,
                          d.place.column);
    };
    std::vector<Diagnostic> sorted = all_;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [&](const Diagnostic& a, const Diagnostic& b) { return key(a) < key(b); });
    return sorted;
}

}  // namespace gallipot::diag
