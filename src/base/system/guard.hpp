#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

/// Which files an output may replace. What a run has read and what is kept beside the job are
/// protected; of all else only a regular file of the same kind is replaced, a PDF by a PDF.
/// May be called from several threads.
namespace gallipot::system {

/// No output of this run goes to `path`, whether or not a file is there yet. `what` names it in the
/// error: "the secret of this job".
void protect(const std::filesystem::path& path, const std::string& what);

/// As protect, for a file that is open; read_file calls it for each file it reads.
void protect_open_file(int descriptor);

/// Nothing is protected any more: another run begins. A process that is one run needs no call.
void forget_protected();

/// How many of its first bytes tell what kind of file it is.
inline constexpr std::size_t head_size = 128;

/// Throws UsageError unless `path` may be given to an output: its folder is there, it is not
/// protected, and nothing is there but a regular file. Links are neither followed nor replaced.
void check_output_name(const std::filesystem::path& path);

/// As check_output_name, and a file that is there must be of the kind of the new one, whose first
/// `head_size` bytes are `head` (all of a shorter one): a PDF, an iCalendar file, an HTML page, a
/// JPEG picture, or the copy of a visit log. Of any other kind none is replaced. Throws SystemError
/// when the file that is there cannot be read.
void check_output(const std::filesystem::path& path, std::string_view head);

}  // namespace gallipot::system
