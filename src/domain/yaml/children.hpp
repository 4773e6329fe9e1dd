#pragma once

#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

namespace gallipot::yaml {

/// What stands below a value: a vector that takes no room until something is in it, for most values
/// have nothing below them and a large file has millions.
template <class T>
class Children {
  public:
    Children() = default;
    Children(const Children& other)
        : all_(other.all_ ? std::make_unique<std::vector<T>>(*other.all_) : nullptr) {}
    Children(Children&&) noexcept = default;
    Children& operator=(const Children& other) {
        all_ = other.all_ ? std::make_unique<std::vector<T>>(*other.all_) : nullptr;
        return *this;
    }
    Children& operator=(Children&&) noexcept = default;
    ~Children() = default;

    [[nodiscard]] const std::vector<T>& all() const {
        static const std::vector<T> none;
        return all_ ? *all_ : none;
    }
    [[nodiscard]] auto begin() const { return all().begin(); }
    [[nodiscard]] auto end() const { return all().end(); }
    [[nodiscard]] std::size_t size() const { return all().size(); }
    [[nodiscard]] bool empty() const { return all().empty(); }
    [[nodiscard]] const T& operator[](std::size_t index) const { return all()[index]; }

    template <class... Of>
    void add(Of&&... of) {
        if (!all_) all_ = std::make_unique<std::vector<T>>();
        all_->emplace_back(std::forward<Of>(of)...);
    }
    /// Nothing more will be added.
    void close() {
        if (all_) all_->shrink_to_fit();
    }

  private:
    std::unique_ptr<std::vector<T>> all_;
};

}  // namespace gallipot::yaml
