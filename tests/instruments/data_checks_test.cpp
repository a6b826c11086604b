// What holds for every instrument of ours, by the physics of a tube with holes and by the custom of fingering tables.
// Each check names what it rests on.
#include <catch2/catch.hpp>

#include <cmath>
#include <set>

#include "fingerway/mechanism/targets.hpp"
#include "fingerway/report/text.hpp"
#include "report/approved.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

std::string line_words(const Instrument& instrument, std::size_t line) {
  const TableFingering& f = instrument.table[line];
  return name(f.spelling) + " \"" + f.mark + "\" " + names_of(instrument, f.fingering.pressed);
}

/// Where along the bore the first open tone hole is; past its end where none is.
std::size_t first_open(const Instrument& instrument, const Target& target) {
  for (std::size_t i = 0; i < instrument.bore.size(); ++i) {
    const PadId pad = instrument.bore[i];
    const bool hole = instrument.pads[pad.index].kind != PadKind::vent;
    if (hole && !target.states.closed.contains(pad) && !target.states.half.contains(pad)) return i;
  }
  return instrument.bore.size();
}

/// True when no hole that stands open at rest lies between two places: side and trill holes stand beside the main ones.
bool neighbours(const Instrument& instrument, std::size_t a, std::size_t b) {
  for (std::size_t i = std::min(a, b) + 1; i < std::max(a, b); ++i) {
    const Pad& pad = instrument.pads[instrument.bore[i].index];
    if (pad.kind == PadKind::tone_hole && pad.rest == PadRest::open) return false;
  }
  return true;
}

template <class Check>
void each_instrument(const Check& check) {
  const std::vector<std::string> ids = instrument_ids(own_instruments());
  REQUIRE(ids.size() >= 6);
  for (const std::string& id : ids) {
    INFO(id);
    const Instrument instrument = read_instrument(id, own_instruments());
    check(instrument, targets(instrument));
  }
}

}  // namespace

TEST_CASE("going up the lowest register the first open hole goes up the bore") {
  // Common practice, and the physics of a tone-hole lattice (Benade): the first open hole ends the tube.
  each_instrument([](const Instrument& instrument, const std::vector<Target>& all) {
    std::size_t last = instrument.bore.size() + 1;
    std::size_t notes = 0;
    for (WrittenPitch p = instrument.lowest; p <= instrument.highest; p = p + Semitones(1)) {
      for (const Target& target : all) {
        const TableFingering& line = instrument.table[target.line];
        const bool plain = line.pitch == p && line.reg == 1 && line.standing == Standing::standard &&
                           line.way == Way::plain && line.fingering.half.empty();
        if (!plain) continue;
        INFO(line_words(instrument, target.line));
        const std::size_t here = first_open(instrument, target);
        CHECK(here <= last);
        last = here;
        ++notes;
        break;
      }
    }
    CHECK(notes >= 5);
  });
}

TEST_CASE("no two notes of one register share a pad state") {
  // One state of the tube in one register is one note; only partials overblown from one fingering share theirs.
  each_instrument([](const Instrument& instrument, const std::vector<Target>& all) {
    for (const Target& a : all) {
      for (const Target& b : all) {
        const TableFingering& one = instrument.table[a.line];
        const TableFingering& two = instrument.table[b.line];
        if (one.pitch >= two.pitch || one.reg != two.reg || !one.confirmed_whole || !two.confirmed_whole) continue;
        if (one.way == Way::harmonic && two.way == Way::harmonic) continue;
        if (!(a.states == b.states) || a.at_attack != b.at_attack) continue;
        FAIL_CHECK(line_words(instrument, a.line) + " and " + line_words(instrument, b.line));
      }
    }
  });
}

TEST_CASE("alternates open the hole of the standard fingering or its neighbour, or say how they come by the note") {
  each_instrument([](const Instrument& instrument, const std::vector<Target>& all) {
    for (const Target& alternate : all) {
      const TableFingering& line = instrument.table[alternate.line];
      if (line.standing != Standing::alternate || line.way != Way::plain || !line.confirmed_whole) continue;
      bool explained = false;
      bool has_standard = false;
      for (const Target& standard : all) {
        const TableFingering& other = instrument.table[standard.line];
        if (other.pitch != line.pitch || other.reg != line.reg || other.standing != Standing::standard) continue;
        has_standard = true;
        explained =
            explained || neighbours(instrument, first_open(instrument, standard), first_open(instrument, alternate));
      }
      INFO(line_words(instrument, alternate.line));
      CHECK((explained || !has_standard));
    }
  });
}

TEST_CASE("what the trade calls a lower note's fingering with the vent differs from it in vents alone") {
  each_instrument([](const Instrument& instrument, const std::vector<Target>& all) {
    PadSet vents;
    for (std::size_t i = 0; i < instrument.pads.size(); ++i) {
      if (instrument.pads[i].kind == PadKind::vent) vents.insert(PadId(i));
    }
    for (const Target& upper : all) {
      const TableFingering& line = instrument.table[upper.line];
      if (!line.partner) continue;
      INFO(line_words(instrument, upper.line));
      // Half a hole is a vent too: it lets the register speak.
      const PadSet free = vents | upper.states.half;
      const bool agrees = std::ranges::any_of(all, [&](const Target& lower) {
        return instrument.table[lower.line].pitch == *line.partner &&
               (lower.states.closed - free - lower.states.half) == (upper.states.closed - free - lower.states.half);
      });
      CHECK(agrees);
    }
  });
}

TEST_CASE("harmonics lie where the partials of their note lie") {
  // Partial n sounds 12 log2 n semitones above the first (arithmetic of the harmonic series).
  std::size_t harmonics = 0;
  each_instrument([&](const Instrument& instrument, const std::vector<Target>&) {
    for (std::size_t i = 0; i < instrument.table.size(); ++i) {
      const TableFingering& line = instrument.table[i];
      if (line.way != Way::harmonic) continue;
      ++harmonics;
      INFO(line_words(instrument, i));
      const double above = 12.0 * std::log2(line.partial);
      CHECK(std::abs((line.pitch - line.partial_of.value()).count - above) < 1.0);
    }
  });
  CHECK(harmonics > 5);
}

TEST_CASE("the charts read as approved") {
  // A change of data shows as a readable difference: FINGERWAY_APPROVE=1 writes, git diff shows.
  for (const std::string& id : instrument_ids(own_instruments())) {
    CHECK(unapproved("charts/" + id + ".txt", chart_text(own_played(id))) == "");
  }
}
