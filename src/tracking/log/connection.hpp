#pragma once

#include <SQLiteCpp/Database.h>
#include <exception>
#include <filesystem>
#include <mutex>

#include "base/system/files.hpp"

/// One connection to a log's file. Private to this folder.
namespace gallipot::log {

/// What SQLite's error means for the user, and what to do about it.
system::SystemError explain(const SQLite::Exception& error, const std::string& file);

enum class Access { read, write };

/// A connection and the lock that its users take.
struct Connection {
    /// Opens the file: every commit is on the disk before it returns, and other processes are
    /// waited for up to five seconds. With Access::write the file is made when it is not there and
    /// brought to the newest format. Throws SQLite::Exception and system::SystemError.
    Connection(const std::string& file, Access access);

    SQLite::Database database;
    std::mutex mutex;
};

}  // namespace gallipot::log
