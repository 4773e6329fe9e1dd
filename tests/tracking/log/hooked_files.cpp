#include "hooked_files.hpp"

#include <algorithm>
#include <cstring>
#include <fstream>
#include <new>
#include <optional>
#include <sqlite3.h>
#include <sstream>
#include <stdexcept>

namespace gallipot::tests {
namespace {

/// One change of a file that was not synced: bytes at a place, or a new length.
struct Change {
    std::int64_t at = 0;
    std::optional<std::string> bytes;  ///< none: the file was cut to `at`
};
struct Unsynced {
    std::string synced;
    std::vector<Change> changes;
};

struct State {
    sqlite3_vfs* real = nullptr;
    sqlite3_vfs vfs{};
    std::function<int(const FileCall&)> hook;
    std::int64_t calls = 0;
    std::map<std::string, Unsynced> files;
};
State state;

int ask(const char* what, const std::string& file, int usual_error) {
    ++state.calls;
    return state.hook ? state.hook({state.calls, what, file, usual_error}) : SQLITE_OK;
}

std::string content(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    return bytes.str();
}

/// SQLite's file, ours before the real one.
struct Hooked {
    sqlite3_file base;
    sqlite3_file* real;
    std::string* name;
};
Hooked& of(sqlite3_file* file) {
    return *reinterpret_cast<Hooked*>(file);
}
const sqlite3_io_methods& real_methods(sqlite3_file* file) {
    return *of(file).real->pMethods;
}

int close(sqlite3_file* file) {
    const int code = real_methods(file).xClose(of(file).real);
    delete of(file).name;
    return code;
}
int read(sqlite3_file* file, void* to, int count, sqlite3_int64 at) {
    if (const int error = ask("read", *of(file).name, SQLITE_IOERR_READ)) return error;
    return real_methods(file).xRead(of(file).real, to, count, at);
}
int write(sqlite3_file* file, const void* from, int count, sqlite3_int64 at) {
    const std::string& name = *of(file).name;
    if (const int error = ask("write", name, SQLITE_FULL)) {
        // A disk that is full, or breaks, may have taken a part.
        real_methods(file).xWrite(of(file).real, from, count / 2, at);
        return error;
    }
    state.files[name].changes.push_back(
        {at, std::string(static_cast<const char*>(from), static_cast<std::size_t>(count))});
    return real_methods(file).xWrite(of(file).real, from, count, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    if (const int error = ask("truncate", *of(file).name, SQLITE_IOERR_TRUNCATE)) return error;
    state.files[*of(file).name].changes.push_back({size, std::nullopt});
    return real_methods(file).xTruncate(of(file).real, size);
}
int sync(sqlite3_file* file, int) {
    const std::string& name = *of(file).name;
    if (const int error = ask("sync", name, SQLITE_IOERR_FSYNC)) return error;
    state.files[name] = {content(name), {}};
    return SQLITE_OK;
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
    if (const int error = ask("size", *of(file).name, SQLITE_IOERR_FSTAT)) return error;
    return real_methods(file).xFileSize(of(file).real, size);
}
int lock(sqlite3_file* file, int level) {
    if (const int error = ask("lock", *of(file).name, SQLITE_IOERR_LOCK)) return error;
    return real_methods(file).xLock(of(file).real, level);
}
int unlock(sqlite3_file* file, int level) {
    return real_methods(file).xUnlock(of(file).real, level);
}
int check_lock(sqlite3_file* file, int* reserved) {
    return real_methods(file).xCheckReservedLock(of(file).real, reserved);
}
int control(sqlite3_file* file, int what, void* argument) {
    return real_methods(file).xFileControl(of(file).real, what, argument);
}
int sector(sqlite3_file* file) {
    return real_methods(file).xSectorSize(of(file).real);
}
int features(sqlite3_file* file) {
    return real_methods(file).xDeviceCharacteristics(of(file).real);
}
int shared_map(sqlite3_file* file, int page, int size, int extend, void volatile** map) {
    if (const int error = ask("map", *of(file).name, SQLITE_IOERR_SHMMAP)) return error;
    return real_methods(file).xShmMap(of(file).real, page, size, extend, map);
}
int shared_lock(sqlite3_file* file, int offset, int count, int flags) {
    if ((flags & SQLITE_SHM_UNLOCK) == 0)
        if (const int error = ask("shared lock", *of(file).name, SQLITE_IOERR_SHMLOCK))
            return error;
    return real_methods(file).xShmLock(of(file).real, offset, count, flags);
}
void shared_barrier(sqlite3_file* file) {
    real_methods(file).xShmBarrier(of(file).real);
}
int shared_unmap(sqlite3_file* file, int remove) {
    return real_methods(file).xShmUnmap(of(file).real, remove);
}

/// As version 2 has them: without files mapped into memory.
const sqlite3_io_methods methods = [] {
    sqlite3_io_methods all{};
    all.iVersion = 2;
    all.xClose = close;
    all.xRead = read;
    all.xWrite = write;
    all.xTruncate = truncate;
    all.xSync = sync;
    all.xFileSize = file_size;
    all.xLock = lock;
    all.xUnlock = unlock;
    all.xCheckReservedLock = check_lock;
    all.xFileControl = control;
    all.xSectorSize = sector;
    all.xDeviceCharacteristics = features;
    all.xShmMap = shared_map;
    all.xShmLock = shared_lock;
    all.xShmBarrier = shared_barrier;
    all.xShmUnmap = shared_unmap;
    return all;
}();

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* opened_as) {
    Hooked& hooked = of(file);
    hooked.base.pMethods = nullptr;
    const std::string known = name == nullptr ? "(temporary)" : name;
    if (const int error = ask("open", known, SQLITE_CANTOPEN)) return error;
    hooked.real = reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(file) + sizeof(Hooked));
    const int code = state.real->xOpen(state.real, name, hooked.real, flags, opened_as);
    if (code != SQLITE_OK) return code;
    hooked.name = new std::string(known);
    // What was there before all of this is on the disk.
    if (name != nullptr) state.files.try_emplace(known, Unsynced{content(known), {}});
    hooked.base.pMethods = &methods;
    return SQLITE_OK;
}
int remove(sqlite3_vfs*, const char* name, int sync_folder) {
    if (const int error = ask("delete", name, SQLITE_IOERR_DELETE)) return error;
    state.files.erase(name);
    return state.real->xDelete(state.real, name, sync_folder);
}
int access(sqlite3_vfs*, const char* name, int flags, int* result) {
    if (const int error = ask("access", name, SQLITE_IOERR_ACCESS)) return error;
    return state.real->xAccess(state.real, name, flags, result);
}

}  // namespace

HookedFiles::HookedFiles() {
    state = {};
    state.real = sqlite3_vfs_find(nullptr);
    state.vfs = *state.real;
    state.vfs.szOsFile = static_cast<int>(sizeof(Hooked)) + state.real->szOsFile;
    state.vfs.zName = "hooked";
    state.vfs.pNext = nullptr;
    state.vfs.xOpen = open;
    state.vfs.xDelete = remove;
    state.vfs.xAccess = access;
    if (sqlite3_vfs_register(&state.vfs, 1) != SQLITE_OK)
        throw std::runtime_error("SQLite takes no other file layer");
}

HookedFiles::~HookedFiles() {
    sqlite3_vfs_unregister(&state.vfs);
    sqlite3_vfs_register(state.real, 1);
}

void HookedFiles::at_each_call(std::function<int(const FileCall&)> hook) {
    state.hook = std::move(hook);
    state.calls = 0;
}

std::int64_t HookedFiles::calls() const {
    return state.calls;
}

void HookedFiles::look_again() {
    for (auto& [name, file] : state.files) file = {content(name), {}};
}

void HookedFiles::lose_power(const std::function<bool()>& chance) {
    for (const auto& [name, file] : state.files) {
        if (file.changes.empty()) continue;
        std::string bytes = file.synced;
        for (const Change& change : file.changes) {
            if (!chance()) continue;
            const auto at = static_cast<std::size_t>(change.at);
            if (!change.bytes) {
                bytes.resize(at);
                continue;
            }
            bytes.resize(std::max(bytes.size(), at + change.bytes->size()));
            bytes.replace(at, change.bytes->size(), *change.bytes);
        }
        std::ofstream(name, std::ios::binary | std::ios::trunc) << bytes;
    }
    state.files.clear();
}

}  // namespace gallipot::tests
