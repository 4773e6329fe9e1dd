#pragma once

#include <optional>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"

/// Where the bait stands and what is in it, for everyone in the building.
namespace gallipot::document {

/// Part of a building: a flat, else a floor; both as the job's main language writes them.
struct Home {
    std::string unit;
    std::string floor;
};

/// The flats and floors of the job that have a station, where there is more than one: each flat,
/// and each floor that has stations of no flat.
std::vector<Home> homes(const job::Job& job);
/// "Flat 12"; "Upper floor".
std::string home_name(const job::Job& job, const Home& home, const text::Catalog& words);

/// "K1", "K1-1, K1-2", "K1-1 to K1-4".
std::string numbers_of(const plan::Station& planned, const text::Catalog& words);

/// A sketch of a floor with these stations alone; none where the job draws no rooms there or none
/// of them has a point.
std::optional<FloorDrawing> small_plan(const job::Job& job, const std::string& floor,
                                       const std::vector<const job::Station*>& of,
                                       const text::Catalog& words);

/// All stations that hold something or were sprayed, room by room, with their containers' numbers
/// and a small plan beside them where there is one. By floor where there are several; those of
/// `home` (may be null) first.
std::vector<Block> where_it_is(const job::Job& job, const plan::Plan& plan, const Home* home,
                               const text::Catalog& words);

/// What is in one container of each station, for whoever asks on the telephone; stations alike in
/// one row.
Table contents_by_number(const job::Job& job, const plan::Plan& plan, const text::Catalog& words);

}  // namespace gallipot::document
