#pragma once

#include <cstdio>
#include <memory>
#include <string_view>

namespace gallipot::system {

/// A temporary file without a name, gone when this is. Everything throws SystemError.
class ScratchFile {
  public:
    ScratchFile();
    void write(std::string_view bytes);
    /// Another descriptor of the file, for whoever sends it; `size` is set to its bytes.
    [[nodiscard]] int open_again(std::size_t& size) const;

  private:
    struct Close {
        void operator()(std::FILE* file) const { std::fclose(file); }
    };
    std::unique_ptr<std::FILE, Close> file_;
};

}  // namespace gallipot::system
