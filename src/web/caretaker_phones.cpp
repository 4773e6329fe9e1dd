#include "web/caretaker_phones.hpp"

#include <algorithm>
#include <array>

#include "base/system/error.hpp"
#include "web/cookies.hpp"

namespace gallipot::web {
namespace {

/// As long as browsers keep any cookie; it starts anew whenever the code is opened.
constexpr long lifetime_s = 400L * 24 * 3600;
constexpr std::size_t id_characters = 16;

/// Cookies know no port: two jobs on one machine must not take each other's.
std::string cookie_name(const keys::Secret& secret) {
    return "caretaker-" + keys::job_mark(secret);
}

/// As we make them. The mark takes small letters for capitals: an id that was ended must not come
/// back in other letters.
bool is_id(std::string_view text) {
    return text.size() == id_characters && std::ranges::all_of(text, [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z');
           });
}

/// What kind of phone it says it is: a word of ours, never its own.
std::string kind_of(const Request& request) {
    static constexpr std::array kinds{"iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux"};
    const std::string agent = request.header("user-agent");
    for (const char* kind : kinds)
        if (agent.find(kind) != std::string::npos) return kind;
    return {};
}

}  // namespace

std::optional<std::string> CaretakerPhones::proven_id(const Request& request) const {
    const keys::Secret secret = secret_();
    for (const std::string& cookie : cookies(request, cookie_name(secret))) {
        if (cookie.size() <= id_characters || cookie[id_characters] != '.') continue;
        const std::string id = cookie.substr(0, id_characters);
        if (is_id(id) &&
            keys::same_key(keys::phone_mark(secret, id), cookie.substr(id_characters + 1)))
            return id;
    }
    return std::nullopt;
}

std::optional<std::string> CaretakerPhones::phone_of(const Request& request) {
    const auto id = proven_id(request);
    if (!id) return std::nullopt;
    {
        const std::lock_guard lock(mutex_);
        if (ended_.contains(*id)) return std::nullopt;
    }
    try {
        const auto phone = log_.find_phone(*id);
        if (!phone) {
            // A form must not wait for this.
            if (request.method == "GET") note(*id, request);
        } else if (phone->ended) {
            const std::lock_guard lock(mutex_);
            ended_.insert(*id);
            return std::nullopt;
        }
    } catch (const system::SystemError&) {
        // What was typed on it must come back all the same; nothing can be recorded anyway.
    }
    return id;
}

void CaretakerPhones::note(const std::string& id, const Request& request) {
    log_.add_phone(id, kind_of(request), now_());
}

void CaretakerPhones::let_in(Response& response, const std::optional<std::string>& id,
                             bool secure) const {
    const keys::Secret secret = secret_();
    const std::string name = id ? *id : keys::random_id();
    // Lax: the codes of the labels are links that come from elsewhere.
    set_cookie(response, {cookie_name(secret), name + "." + keys::phone_mark(secret, name),
                          SameSite::lax, lifetime_s, secure});
}

void CaretakerPhones::end(const std::string& id) {
    log_.end_phone(id, now_());
    const std::lock_guard lock(mutex_);
    ended_.insert(id);
}

}  // namespace gallipot::web
