#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/text.hpp"

/// The one table of everything a job file may say. It drives what is accepted, which near spellings
/// are offered, what an error gives as an example, and what is told of a key elsewhere.
namespace gallipot::job {

enum class Type {
    text,
    local_text,  ///< a text, or a mapping of language tags to one each
    number,
    whole,  ///< a whole number
    flag,   ///< true or false
    date,   ///< 2027-03-02
    time,   ///< 2027-03-02 19:30, or the date alone
    volume,
    mass,
    length,
    area,
    duration,
    density,
    temperature,
    share,
    choice,   ///< one of a few words
    id,       ///< a short name that fits a link
    point,    ///< [x, y] in metres
    outline,  ///< a list of points
    list,
    mapping,  ///< known keys below it
    named,    ///< a mapping whose keys are names of the user's own
    measure,  ///< "1/2 tsp" or a mapping
    mass_or_volume,
    density_or_range,
    amount,          ///< of an ingredient: a number, a volume or mass, `rest` or a mapping
    limit,           ///< of an ingredient: a number, or one with a basis of its own
    batch,           ///< a volume, `as written` or "3 times"
    openings,        ///< "4 side holes of 6 mm"
    csv_file,        ///< a table's file in the job's folder
    number_to_call,  ///< a telephone number, or { name: .., phone: .. }
    visits,          ///< a list of times, or a mapping with that list under `every`
};

struct Key {
    /// Steps joined by dots; "*" stands for a name of the user's own or for an entry of a list.
    std::string_view path;
    Type type = Type::text;
    bool required = false;
    std::string_view
        default_value;  ///< the value when left out, as it would be written; may be empty
    std::string_view description;  ///< one line, no full stop
    std::string_view example;      ///< a value
    /// Bounds: characters of a text, entries of a list or mapping, else the value itself in the
    /// dimension's usual unit (mL, g, mm, m2, d, g/mL, C, %).
    double minimum = 0, maximum = 0;
    std::string_view choices;  ///< parted by "|"

    /// The last step: "fill".
    [[nodiscard]] std::string_view name() const;
    [[nodiscard]] std::vector<std::string> words() const;  ///< the choices
    /// A value of it makes the recipe what it is: no message may offer one of its own.
    [[nodiscard]] bool recipe() const;
};

std::span<const Key> keys();

/// By its whole path; null when there is none.
const Key* find_key(std::string_view path);

/// The word that a job writes for a value of an enumeration, which is in the order of its key's
/// choices.
std::string word_of(std::string_view path, std::size_t index);
template <typename Enum>
std::string word_of(std::string_view path, Enum value) {
    return word_of(path, static_cast<std::size_t>(value));
}

/// The keys right below `path` ("" for the top of the file), in the table's order. A path without
/// any throws std::logic_error.
struct Section {
    std::vector<const Key*> keys;
    std::vector<std::string> names;
};
const Section& section_of(std::string_view path);

/// What to write, in words: "a volume", "one of A4, Letter".
diag::Text type_in_words(const Key& key);

}  // namespace gallipot::job
