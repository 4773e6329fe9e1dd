#pragma once

#include <unistd.h>

/// Private to this folder.
namespace gallipot::system {

/// An open file, closed on the way out whatever happens.
class Descriptor {
  public:
    explicit Descriptor(int fd) : fd_(fd) {}
    ~Descriptor() {
        if (fd_ >= 0) ::close(fd_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int get() const { return fd_; }
    [[nodiscard]] bool good() const { return fd_ >= 0; }

  private:
    int fd_;
};

}  // namespace gallipot::system
