#pragma once

#include <stdexcept>

namespace gallipot::system {

/// What ends a command without being a fault of ours. what() is for the user: what was being done,
/// the file, the reason and what to do about it. Every error that a command may end with derives
/// from this, and every other error of ours from std::exception, so nothing passes a `catch` of it.
class Error : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// The system failed us (disk full, no right to write, no font): exit code 3.
class SystemError : public Error {
  public:
    using Error::Error;
};

/// What was typed cannot be done: no file of that name, an output that would replace something
/// else. Exit code 2: another command line will do, and the job need not be changed.
class UsageError : public Error {
  public:
    using Error::Error;
};

}  // namespace gallipot::system
