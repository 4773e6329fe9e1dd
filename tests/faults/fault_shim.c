/* Lets the n-th call of a program to the file system fail. Preloaded (LD_PRELOAD); tests/faults/faults.py
 * says how it is told:
 *
 *   FAULT_UNDER   calls that name, or go to, something in this folder or below are counted
 *   FAULT_AT      the number of the call that fails, from 1; 0: none, they are only counted
 *   FAULT_ERROR   the errno it fails with; -1: a write or read does half of it, all else succeeds
 *   FAULT_LASTS   1: all later calls of that kind fail too, as on a disk that stays full
 *   FAULT_REPORT  a file that receives, at the end, how many calls there were and which failed
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

static char under[PATH_MAX];
static size_t under_length;
static long fail_at;
static int fail_error, fail_lasts;
static char report[PATH_MAX];
static atomic_long calls;
static const char* _Atomic failed_call; /* its name, once one has failed */

static void put(char* to, size_t size, const char* name) {
    const char* value = getenv(name);
    if (value != NULL) snprintf(to, size, "%s", value);
}

static long number(const char* name) {
    const char* value = getenv(name);
    return value == NULL ? 0 : strtol(value, NULL, 10);
}

__attribute__((constructor)) static void begin(void) {
    put(under, sizeof under, "FAULT_UNDER");
    put(report, sizeof report, "FAULT_REPORT");
    under_length = strlen(under);
    fail_at = number("FAULT_AT");
    fail_error = (int)number("FAULT_ERROR");
    fail_lasts = (int)number("FAULT_LASTS");
}

/* By system calls alone: the functions of this file are not for it. */
__attribute__((destructor)) static void end(void) {
    char text[128];
    if (report[0] == 0) return;
    const long file = syscall(SYS_openat, AT_FDCWD, report, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    if (file < 0) return;
    const char* which = failed_call;
    const int size = snprintf(text, sizeof text, "%ld %s\n", (long)calls, which ? which : "-");
    if (size > 0) syscall(SYS_write, file, text, (size_t)size);
    syscall(SYS_close, file);
}

static int is_under(const char* path) {
    return under_length > 0 && strncmp(path, under, under_length) == 0;
}

static int path_under(const char* path) {
    char whole[PATH_MAX];
    if (under_length == 0 || path == NULL) return 0;
    if (path[0] == '/') return is_under(path);
    if (getcwd(whole, sizeof whole) == NULL) return 0;
    return is_under(whole);
}

static int file_under(int file) {
    char link[64], path[PATH_MAX];
    if (under_length == 0 || file < 0) return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    const ssize_t size = syscall(SYS_readlinkat, AT_FDCWD, link, path, sizeof path - 1);
    if (size <= 0) return 0;
    path[size] = 0;
    return is_under(path);
}

/* Counts a call, and whether it is to fail. */
static int fails(int counted, const char* name) {
    if (!counted) return 0;
    const long mine = atomic_fetch_add(&calls, 1) + 1;
    if (fail_at == 0 || mine < fail_at) return 0;
    if (mine == fail_at) failed_call = name;
    if (mine > fail_at) {
        const char* which = failed_call;
        if (!fail_lasts || which == NULL || strcmp(which, name) != 0) return 0;
    }
    return 1;
}

#define REAL(name) __typeof__(&name) real = (__typeof__(&name))dlsym(RTLD_NEXT, #name)
#define FAIL_IF(counted, name)                    \
    do {                                          \
        if (fails(counted, name) && fail_error > 0) { \
            errno = fail_error;                   \
            return -1;                            \
        }                                         \
    } while (0)

static mode_t mode_of(int flags, va_list rest) {
    return (flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE ? va_arg(rest, mode_t) : 0;
}

#define OPEN(name)                                   \
    int name(const char* path, int flags, ...) {     \
        va_list rest;                                \
        va_start(rest, flags);                       \
        const mode_t mode = mode_of(flags, rest);    \
        va_end(rest);                                \
        REAL(name);                                  \
        FAIL_IF(path_under(path), "open");           \
        return real(path, flags, mode);              \
    }
OPEN(open)
OPEN(open64)

#define OPENAT(name)                                                 \
    int name(int folder, const char* path, int flags, ...) {         \
        va_list rest;                                                \
        va_start(rest, flags);                                       \
        const mode_t mode = mode_of(flags, rest);                    \
        va_end(rest);                                                \
        REAL(name);                                                  \
        FAIL_IF(path_under(path) || file_under(folder), "open");     \
        return real(folder, path, flags, mode);                      \
    }
OPENAT(openat)
OPENAT(openat64)

/* A write or read that does half of what it was asked is no error: the caller goes on. */
#define HALF(size) (fail_error < 0 && (size) > 1 ? (size) / 2 : (size))

#define TRANSFER(name, kind, buffer)                              \
    ssize_t name(int file, buffer bytes, size_t size) {           \
        REAL(name);                                               \
        if (!fails(file_under(file), kind)) return real(file, bytes, size); \
        if (fail_error > 0) {                                     \
            errno = fail_error;                                   \
            return -1;                                            \
        }                                                         \
        return real(file, bytes, HALF(size));                     \
    }
TRANSFER(write, "write", const void*)
TRANSFER(read, "read", void*)

#define TRANSFER_AT(name, kind, buffer, offset_type)              \
    ssize_t name(int file, buffer bytes, size_t size, offset_type at) { \
        REAL(name);                                               \
        if (!fails(file_under(file), kind)) return real(file, bytes, size, at); \
        if (fail_error > 0) {                                     \
            errno = fail_error;                                   \
            return -1;                                            \
        }                                                         \
        return real(file, bytes, HALF(size), at);                 \
    }
TRANSFER_AT(pwrite, "write", const void*, off_t)
TRANSFER_AT(pwrite64, "write", const void*, off64_t)
TRANSFER_AT(pread, "read", void*, off_t)
TRANSFER_AT(pread64, "read", void*, off64_t)

#define OF_FILE(name, kind)                     \
    int name(int file) {                        \
        REAL(name);                             \
        FAIL_IF(file_under(file), kind);        \
        return real(file);                      \
    }
OF_FILE(fsync, "sync")
OF_FILE(fdatasync, "sync")

/* A close that fails has closed the file all the same (man 2 close). */
int close(int file) {
    REAL(close);
    const int wrong = fails(file_under(file), "close") && fail_error > 0;
    const int done = real(file);
    if (!wrong) return done;
    errno = fail_error;
    return -1;
}

#define TRUNCATE(name, offset_type)             \
    int name(int file, offset_type size) {      \
        REAL(name);                             \
        FAIL_IF(file_under(file), "truncate");  \
        return real(file, size);                \
    }
TRUNCATE(ftruncate, off_t)
TRUNCATE(ftruncate64, off64_t)

#define ALLOCATE(name, offset_type)                                   \
    int name(int file, int mode, offset_type at, offset_type size) {  \
        REAL(name);                                                   \
        FAIL_IF(file_under(file), "allocate");                        \
        return real(file, mode, at, size);                            \
    }
ALLOCATE(fallocate, off_t)
ALLOCATE(fallocate64, off64_t)

int rename(const char* from, const char* to) {
    REAL(rename);
    FAIL_IF(path_under(to), "rename");
    return real(from, to);
}

int link(const char* from, const char* to) {
    REAL(link);
    FAIL_IF(path_under(to), "link");
    return real(from, to);
}

int linkat(int from_folder, const char* from, int to_folder, const char* to, int flags) {
    REAL(linkat);
    FAIL_IF(path_under(to), "link");
    return real(from_folder, from, to_folder, to, flags);
}

int unlink(const char* path) {
    REAL(unlink);
    FAIL_IF(path_under(path), "unlink");
    return real(path);
}

int mkdir(const char* path, mode_t mode) {
    REAL(mkdir);
    FAIL_IF(path_under(path), "mkdir");
    return real(path, mode);
}
