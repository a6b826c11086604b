#include <algorithm>
#include <charconv>
#include <mutex>

#include "app/build_info.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/decide/fingerprint.hpp"
#include "payoff_work.hpp"
#include "workers.hpp"

namespace fingerway {
namespace {

/// Passages planned by one thread with one hand before it takes up another.
constexpr std::size_t pieces_at_once = 8;

OutcomeDetail detail_of(std::size_t world) { return world == 0 ? OutcomeDetail::notes : OutcomeDetail::figures; }

Player player_in(const World& world, Player player) {
  player.level = world.level;
  return player;
}

/// Some passages with one set in one world: they share a hand.
struct Batch {
  std::size_t world = 0;
  std::size_t variant = 0;
  std::vector<std::size_t> pieces;
};

std::vector<Batch> batches(const PayoffGrid& grid, Shard shard) {
  std::vector<Batch> all;
  for (std::size_t w = 0; w < grid.worlds; ++w) {
    for (std::size_t v = 0; v < grid.variants; ++v) {
      Batch batch{.world = w, .variant = v, .pieces = {}};
      for (std::size_t p = 0; p < grid.pieces; ++p) {
        const std::size_t unit = grid.index(w, p, v);
        if (grid.done.holds(unit) || unit % shard.of != shard.part - 1) continue;
        batch.pieces.push_back(p);
        if (batch.pieces.size() < pieces_at_once) continue;
        all.push_back(batch);
        batch.pieces.clear();
      }
      if (!batch.pieces.empty()) all.push_back(batch);
    }
  }
  return all;
}

bool fits(const PassageOutcome& outcome, std::size_t world, const Piece& piece, const Variant& variant) {
  const std::size_t notes = piece.passage.notes.size();
  const std::size_t details = detail_of(world) == OutcomeDetail::notes ? notes : 0;
  const std::size_t touches = variant.played.instrument.touches.size();
  const auto known = [&](const std::optional<Fingering>& f) {
    return !f || std::ranges::all_of(f->pressed | f->half | f->flicked, [&](TouchId t) { return t.index < touches; });
  };
  return outcome.verdicts.size() == notes && outcome.notes.size() == details &&
         std::ranges::all_of(outcome.notes, [&](const OutcomeNote& n) { return known(n.fingering) && known(n.other); });
}

std::uint64_t key_of(std::size_t world_number, std::uint64_t hand, std::uint64_t passage) {
  Fingerprint print;
  print.add("payoff unit 1").add(program_version).add(static_cast<std::uint64_t>(detail_of(world_number)));
  return print.add(hand).add(passage).value();
}

}  // namespace

Shard parse_shard(const std::string& text) {
  Shard shard;
  const char* const end = text.data() + text.size();
  const auto part = std::from_chars(text.data(), end, shard.part);
  bool good = part.ec == std::errc() && part.ptr != end && *part.ptr == '/';
  if (good) {
    const auto of = std::from_chars(part.ptr + 1, end, shard.of);
    good = of.ec == std::errc() && of.ptr == end;
  }
  constexpr std::size_t most_shards = 100'000;
  if (!good || shard.part < 1 || shard.part > shard.of || shard.of > most_shards) {
    Fault fault;
    fault.what = "'" + text + "' is no shard";
    fault.hint = "write K/N, as 1/4 to 4/4";
    throw InputError(std::move(fault));
  }
  return shard;
}

std::size_t PayoffGrid::missing() const { return missing_in(*this, {}); }

std::vector<PassageOutcome> PayoffGrid::outcomes(std::size_t world_number, std::size_t variant) const {
  std::vector<PassageOutcome> all;
  all.reserve(pieces);
  for (std::size_t p = 0; p < pieces; ++p) all.push_back(done.get(index(world_number, p, variant)));
  return all;
}

PayoffGrid payoff_grid(const PayoffMaterial& material, Level level, std::size_t samples) {
  const std::size_t variants = material.variants.size();
  const std::size_t pieces = material.repertoire.pieces.size();
  const std::size_t units = (samples + 1) * variants * pieces;
  PayoffGrid grid{.worlds = samples + 1,
                  .variants = variants,
                  .pieces = pieces,
                  .keys = std::vector<std::uint64_t>(units),
                  .done = OutcomeStore(units)};
  for (std::size_t w = 0; w < grid.worlds; ++w) {
    const World here = world(w, material.numbers, level);
    const std::uint64_t numbers = Fingerprint().add(here.numbers).value();
    std::vector<std::uint64_t> hands;
    for (const Variant& variant : material.variants) {
      const Instrument instrument = in_world(here, variant.played.instrument);
      const Player player = player_in(here, variant.played.player);
      hands.push_back(Fingerprint().add(instrument).add(numbers).add(player).value());
    }
    for (std::size_t p = 0; p < grid.pieces; ++p) {
      const std::uint64_t passage = Fingerprint().add(in_world(here, material.repertoire.pieces[p].passage)).value();
      for (std::size_t v = 0; v < grid.variants; ++v) {
        grid.keys[grid.index(w, p, v)] = key_of(w, hands[v], passage);
      }
    }
  }
  return grid;
}

DoneBefore::DoneBefore(PayoffGrid& grid, const PayoffMaterial& material) : grid_(grid), material_(material) {
  for (std::size_t unit = 0; unit < grid.keys.size(); ++unit) {
    if (!grid.done.holds(unit)) by_key_.push_back(unit);
  }
  std::ranges::stable_sort(by_key_, {}, [&](std::size_t unit) { return grid.keys[unit]; });
}

void DoneBefore::take(std::uint64_t key, const PassageOutcome& outcome) {
  const auto key_of_unit = [&](std::size_t unit) { return grid_.keys[unit]; };
  // A passage that is named twice has its units twice.
  for (auto found = std::ranges::lower_bound(by_key_, key, {}, key_of_unit);
       found != by_key_.end() && grid_.keys[*found] == key; ++found) {
    const std::size_t variant = *found % grid_.variants;
    const std::size_t piece = *found / grid_.variants % grid_.pieces;
    const std::size_t world = *found / grid_.variants / grid_.pieces;
    // What does not fit its passage and instrument was not written by this program: it is planned again.
    const bool good = fits(outcome, world, material_.repertoire.pieces[piece], material_.variants[variant]);
    if (good && !grid_.done.holds(*found)) grid_.done.put(*found, outcome);
  }
}

std::size_t missing_in(const PayoffGrid& grid, Shard shard) {
  std::size_t count = 0;
  for (std::size_t i = shard.part - 1; i < grid.keys.size(); i += shard.of) {
    if (!grid.done.holds(i)) ++count;
  }
  return count;
}

void run_units(const PayoffMaterial& material, Level level, Shard shard, unsigned threads, PayoffGrid& grid,
               const UnitDone& unit_done) {
  const std::vector<Batch> work = batches(grid, shard);
  std::vector<World> worlds;
  for (std::size_t w = 0; w < grid.worlds; ++w) worlds.push_back(world(w, material.numbers, level));
  std::mutex mutex;
  run_on_threads(work.size(), threads, [&](std::size_t number) {
    const Batch& batch = work[number];
    const World& here = worlds[batch.world];
    const Played& own = material.variants[batch.variant].played;
    std::optional<Played> sampled;
    if (batch.world > 0) sampled = played(in_world(here, own.instrument), here.numbers, player_in(here, own.player));
    for (std::size_t p : batch.pieces) {
      const Passage passage = in_world(here, material.repertoire.pieces[p].passage);
      const PassageOutcome outcome = outcome_of(sampled ? *sampled : own, passage, detail_of(batch.world));
      const std::size_t unit = grid.index(batch.world, p, batch.variant);
      const std::scoped_lock lock(mutex);
      unit_done(grid.keys[unit], outcome);
      grid.done.put(unit, outcome);
    }
  });
}

}  // namespace fingerway
