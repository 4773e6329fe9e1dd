#include "app/secret_watch.hpp"

#include <utility>

#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"

namespace gallipot::app {

SecretWatch::SecretWatch(std::filesystem::path file, const keys::Secret& secret,
                         std::function<void(const std::string&)> tell, Clock clock)
    : file_(std::move(file)),
      tell_(std::move(tell)),
      clock_(std::move(clock)),
      secret_(secret),
      looked_(clock_()) {}

keys::Secret SecretWatch::current() {
    const std::lock_guard lock(mutex_);
    const auto now = clock_();
    if (now - looked_ >= std::chrono::seconds(1)) {
        looked_ = now;
        look();
    }
    return secret_;
}

void SecretWatch::look() {
    const std::string name = diag::quoted(file_.string());
    try {
        const auto text = system::read_if_there(file_);
        if (!text) {
            tell_once(name +
                      " is gone; the codes printed with it open their pages until this "
                      "program ends. Put it back, or render and replace all labels");
            return;
        }
        diag::Diagnostics found;
        const keys::Secret read = keys::parse(
            std::make_shared<const diag::Source>(diag::Source{file_.string(), *text}), found);
        if (found.errors() > 0) {
            tell_once(name + " is no secret any more; the one read before holds. Put it back");
            return;
        }
        told_.clear();
        if (keys::print(read) == keys::print(secret_)) return;
        secret_ = read;
        tell_(name +
              " has been replaced: labels printed with the old one open nothing any more, "
              "and the overview has a new link");
    } catch (const system::SystemError&) {
        tell_once(name + " cannot be read; the one read before holds");
    }
}

void SecretWatch::tell_once(const std::string& sentence) {
    if (told_ == sentence) return;
    told_ = sentence;
    tell_(sentence);
}

}  // namespace gallipot::app
