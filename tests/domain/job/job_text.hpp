#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/reader.hpp"

/// Jobs for the tests to change.
namespace gallipot::tests {

/// A small job without an error or a warning.
inline const std::string small_job = R"(title: Weir Street Hall
prepared: 2027-03-02
help:
  region: AU
  contact: { name: Keeper, phone: 02 5550 0100 }
measures: [1 tbsp, 1/2 tsp]
supplies:
  malt: { density: 1.4 g/mL }
mixes:
  syrup:
    title: Syrup
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: { borax: 1, malt: 20, water: rest }
    limits: { borax: 1.5 }
    lasts: 30 d
  timber:
    title: Timber spray
    against: wood borers
    form: spray
    basis: percent w/v
    ingredients: { borax: { as: boric acid, percent: 1 }, water: rest }
containers:
  cup: { holds: 60 mL, fill: 45 mL }
stations:
  - id: K1
    place: Kitchen
    mix: syrup
    container: cup
  - id: S1
    place: Stage
    mix: timber
    area: 6 m2
  - { id: C1, place: Yard, control: true }
visits: [1 d, 7 d]
)";

/// A job that says everything it can.
inline const std::string full_job = R"(title: Millrace Community Hall
prepared: 2027-03-02
by: Hall caretaker
languages: [en, es, pt-BR]
paper: Letter
labels: letter-2x5
currency: AUD
time_zone: Australia/Sydney
spoons: metric
units: metric
premises: flats
asked: { whom: State regulator, on: 2027-02-20, answer: may be done }
accept: [little-bait, far-from-usual]
help:
  region: AU
  contact: { name: Hall caretaker, phone: (02) 5550 0142 }
  poison_centre: { name: Poison help line, phone: (02) 5550 0199 }
  emergency: "112"
  vet: { name: Vet at the mill, phone: (02) 5550 0177 }
log:
  address: http://192.168.1.20:8017
measures:
  - 1 tbsp
  - 1/2 tsp
  - 1 AU tbsp
  - 15 mL
  - { jug: 500 mL, marks: 25 mL }
  - { jug: 1 L, marks: 50 mL }
  - { syringe: 10 mL, marks: 0.5 mL }
  - { scale: 2 kg, marks: 1 g }
supplies:
  borax: { substance: borax decahydrate, pack: 500 g, price: 3.20 }
  sugar: { pack: 1 kg, price: 1.15 }
  malt: { density: { from: 1.35 g/mL, to: 1.45 g/mL }, pack: 340 mL, price: 2.90, hazard: none }
  ready mix: { strength: { of: boric acid, percent: 5 }, density: 1.02 g/mL }
mixes:
  syrup:
    title: { en: Sweet liquid bait, es: Cebo dulce, pt: Isca doce }
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: { borax: 1, sugar: 20, water: rest }
    limits: { borax: 1.5 }
    spare: 15 %
    vessel: 1 L
    lasts: 30 d
    tolerance: 3 %
    visits: { every: [2 d, 9 d] }
    accept: [stronger-than-usual]
  strong:
    title: Stronger bait
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: { borax: 2, sugar: 20, water: rest }
    lasts: 30 d
  dry:
    title: Dry bait
    against: cockroaches
    form: dry
    basis: parts by mass
    ingredients: { ready mix: { as: boric acid, parts: 1 }, icing sugar: 20 }
    makes: 2 cups
    lasts: 12 wk
  timber:
    title: Timber spray
    against: wood borers
    form: spray
    basis: percent w/v
    ingredients: { borax: { as: boric acid, percent: 1 }, water: rest }
    batch: 750 mL
containers:
  cup: { holds: 60 mL, fill: 45 mL, body: { diameter: 48 mm, height: 44 mm }, openings: 4 side holes of 6 mm }
  saucer: { holds: 30 mL, fill: 20 mL, body: { lid: 60 mm }, openings: open top, exposure: 18 cm2, labels: [a4-2x4, a4-round-50] }
stations:
  - id: K1
    place: Kitchen, behind the bins
    mix: syrup
    container: cup
    count: 2
    placed: 2027-03-02 19:30
    near: [children, rain, plants, water, sockets]
    unit: { en: Flat 12, es: Piso 12 }
    locked: true
    coldest: 8 C
    at: [3.2, 1.1]
    floor: Ground
    was: [B7]
    changes:
      - { on: 2027-03-20 18:00, place: Under the sink, room: Kitchen, unit: Flat 13, floor: Upper, at: [1, 1] }
      - { on: 2027-04-02, mix: strong, container: saucer, count: 3 }
    until: 2027-05-01
  - id: k2
    room: { en: Kitchen, es: Cocina }
    place: sink
    mix: dry
    container: saucer
    visits: { every: [1 h] }
    accept: [crystals]
  - id: S1
    place: Stage, underside of the boards
    mix: timber
    area: 6 m2
    coats: 2
    placed: 2027-03-03T08:05
    inspected: { by: Licensed inspector, on: 2027-02-22 }
  - id: C1
    place: Yard, far wall
    control: true
    against: ants
floor_plan:
  start: [-0.5, 0]
  rooms:
    - { name: Kitchen, floor: Ground, outline: [[0, 0], [5, 0], [5, 4], [0, 4]] }
    - { name: Loft, floor: Upper, outline: [[0, 0], [5, 0], [5, 4]] }
visits: { within: 2 d, every: [1 h, 1 d, 4 d, 10 d, 21 d, 30 d] }
no_sprays_for: 21 d
)";

/// `text` with the first `from` in it replaced. Throws when it is not there.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    if (at == std::string::npos) throw std::logic_error("not in the text: " + from);
    return text.replace(at, from.size(), to);
}

struct ReadJob {
    std::optional<job::Job> job;
    diag::Diagnostics found;
};

inline ReadJob read(const std::string& text, const std::string& name = "job.yaml") {
    ReadJob result;
    result.job =
        job::read_job(std::make_shared<const diag::Source>(diag::Source{name, text}), result.found);
    return result;
}

}  // namespace gallipot::tests
