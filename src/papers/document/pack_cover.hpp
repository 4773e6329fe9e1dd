#pragma once

#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"

namespace gallipot::document {

/// A paper of the pack: its name as in --only, and how many pages it has.
struct PackPart {
    std::string name;
    int pages = 0;
};

/// The first page of a pack: what is in it, in the order of use, and on which page. The parts
/// follow it in the order given.
Sheet pack_cover(const job::Job& job, const std::vector<PackPart>& parts,
                 const safety::WhoToCall& who, const text::Catalog& words);

/// What the pages of a part are called before their number: "cards". Of "cover" too.
std::string page_label(const std::string& name, const text::Catalog& words);

}  // namespace gallipot::document
