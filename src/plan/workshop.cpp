#include "workshop.hpp"

#include <algorithm>

namespace fingerway {
namespace {

Mixed& mix(Mixed& mixed, const std::optional<WrittenPitch>& pitch) {
  return mixed.add(pitch ? static_cast<std::uint64_t>(pitch->key) + 1'000'000 : 0);
}

}  // namespace

std::size_t WantHash::operator()(const Want& want) const {
  Mixed mixed;
  mixed.add(static_cast<std::uint64_t>(want.pitch.key)).add(std::uint64_t{want.odd_pin});
  for (const HoldMask holds : want.holds) mixed.add(holds);
  return mixed.add(want.choices.pins.size() + want.choices.bans.size() + want.choices.holds.size()).value();
}

std::size_t PlacesHash::operator()(const IdlePlaces& places) const {
  Mixed mixed;
  for (const TouchSet set : places) mixed.add(set.bits());
  return mixed.value();
}

std::size_t NoteContextHash::operator()(const NoteContext& context) const {
  Mixed mixed;
  mixed.add_real(context.length.count()).add(static_cast<std::uint64_t>(context.dynamic));
  mix(mixed.add(std::uint64_t{context.trilled}), context.after);
  return mix(mixed, context.before).value();
}

std::size_t StepContextHash::operator()(const StepContext& context) const {
  Mixed mixed;
  mixed.add_real(context.available.count()).add_real(context.silence.count());
  return mixed.add(std::uint64_t{context.tongued} << 1U | std::uint64_t{context.back_and_forth}).value();
}

std::size_t ShapeKeyHash::operator()(const ShapeKey& key) const {
  Mixed mixed;
  mixed.add(std::uint64_t{key.first} << 32U | key.second).add(std::uint64_t{key.places} << 32U | key.context);
  return mixed.add(static_cast<std::uint64_t>(key.kind)).value();
}

std::size_t Workshop::SetHash::operator()(const std::vector<std::uint32_t>& set) const {
  Mixed mixed;
  for (const std::uint32_t number : set) mixed.add(number);
  return mixed.value();
}

Workshop::Workshop(const Played& played, Keeps keeps)
    : played_(played), keeps_(keeps), admission_(played), passing_(played), least_parts_(played.hand) {}

std::vector<std::uint32_t> Workshop::admit(const std::vector<AdmitNote>& entries, const Choices& choices) {
  std::vector<std::uint32_t> numbers;
  numbers.reserve(entries.size());
  for (const Want& want : admission_.wants(entries, choices)) numbers.push_back(met_by(wants_.number(want)));
  return numbers;
}

/// Many wants are met by the same candidates, and are one from here on.
std::uint32_t Workshop::met_by(std::uint32_t want) {
  if (want >= met_by_.size()) met_by_.resize(want + 1, 0);
  if (met_by_[want] != 0) return met_by_[want] - 1;
  const WrittenPitch pitch = wants_[want].pitch;
  Admitted made{.pitch = pitch, .candidates = admission_.meeting(wants_[want]), .numbers = {}, .use = {}};
  std::vector<std::uint32_t> set{static_cast<std::uint32_t>(pitch.key)};
  std::vector<const Candidate*> all;
  for (const Candidate& c : made.candidates) {
    all.push_back(&c);
    auto& known = sounded_[{pitch, c.fingering}];
    auto same = std::ranges::find(known, c, &std::pair<Candidate, std::uint32_t>::first);
    if (same == known.end()) {
      known.emplace_back(c, static_cast<std::uint32_t>(fingerings_.size()));
      fingerings_.push_back(c.fingering);
      same = known.end() - 1;
    }
    made.numbers.push_back(same->second);
    set.push_back(same->second);
    for (std::size_t f = 0; f < finger_count; ++f) made.idles[f] = made.idles[f] || c.hold[f] == 0;
  }
  const std::uint32_t number = sets_.number(set);
  if (number == admitted_.size()) {
    made.use = finger_use(played_, all);
    admitted_.push_back(std::make_shared<const Admitted>(std::move(made)));
  }
  met_by_[want] = number + 1;
  return number;
}

std::shared_ptr<const NoteShape> Workshop::shape(std::uint32_t number) {
  if (shape_bytes_ > most_shape_bytes_) {
    shapes_.clear();
    shape_bytes_ = 0;
  }
  if (number >= shapes_.size()) shapes_.resize(number + 1);
  std::shared_ptr<const NoteShape>& known = shapes_[number];
  if (known) return known;
  const ShapeKey& key = shapes[number];
  const auto seconds = key.second != 0 ? admitted_[key.second - 1] : nullptr;
  ShapeAsked asked{.other = {}, .kind = key.kind, .context = {}};
  if (seconds) {
    asked.other = seconds->pitch;
    asked.context = note_contexts[key.context];
  }
  known = std::make_shared<const NoteShape>(
      note_shape(played_, asked, admitted_[key.first], seconds, places[key.places], least_parts_));
  shape_bytes_ += known->bytes();
  return known;
}

const std::vector<Weight>& Workshop::weights(std::uint32_t admitted, std::uint32_t note_context) {
  const auto [entry, is_new] = weights_.try_emplace(std::uint64_t{admitted} << 32U | note_context);
  if (is_new) {
    for (const Candidate& c : admitted_[admitted]->candidates) {
      entry->second.push_back(weight(note_cost(played_, c, note_contexts[note_context]).total()));
    }
  }
  return entry->second;
}

void Workshop::serve(std::size_t notes) {
  // Beyond so many bytes of shapes all of them are dropped and made again when asked for.
  most_shape_bytes_ = std::max<std::size_t>(12'000'000, 100 * notes);
  // The prices of one step take some ten thousand bytes; a search seldom goes back further than these.
  constexpr std::size_t few = 8;
  constexpr std::size_t most = 2000;
  const std::size_t kept = keeps_ == Keeps::few_prices || notes > most ? few : std::max({few, notes, prices_.size()});
  if (prices_.size() != kept) {
    prices_.clear();
    prices_.reserve(kept);
    while (prices_.size() < kept) prices_.push_back({.key = {}, .prices = StepPrices(played_)});
  }
}

StepPrices& Workshop::prices(std::size_t note, const StepKey& key) {
  KeptPrices& kept = prices_[note % prices_.size()];
  if (kept.key == key) return kept.prices;
  kept.key = key;
  if (key.context >= context_prices_.size()) context_prices_.resize(key.context + 1);
  std::unique_ptr<ContextPrices>& prices = context_prices_[key.context];
  if (!prices) prices = std::make_unique<ContextPrices>(played_, contexts[key.context]);
  const ShapeKey& from = shapes[key.from];
  const std::uint32_t leaving = from.kind == NoteKind::tremolo ? from.second - 1 : from.first;
  const std::uint32_t arriving = shapes[key.to].first;
  kept.prices.take(shape(key.from), shape(key.to), *prices,
                   [this, leaving, arriving](std::uint32_t i, std::uint32_t j) {
                     const Admitted& a = admitted(leaving);
                     const Admitted& b = admitted(arriving);
                     return passing_weight(a.pitch, a.numbers[i], b.pitch, b.numbers[j]);
                   });
  return kept.prices;
}

Weight Workshop::passing_weight(WrittenPitch from_pitch, std::uint32_t from, WrittenPitch to_pitch, std::uint32_t to) {
  const auto [entry, is_new] = passing_weights_.try_emplace(std::uint64_t{from} << 32U | to);
  if (is_new) {
    const double semitones = passing_.expected_semitones(from_pitch, fingerings_[from], to_pitch, fingerings_[to]);
    entry->second = weight(Points(played_.hand.numbers().blip_points.value * semitones));
  }
  return entry->second;
}

std::size_t Workshop::bytes() const {
  std::size_t sum =
      sizeof(Want) * wants_.size() + sizeof(IdlePlaces) * places.size() + sizeof(ShapeKey) * shapes.size();
  for (const auto& set : admitted_) sum += sizeof(Admitted) + sizeof(Candidate) * set->candidates.size();
  return sum;
}

}  // namespace fingerway
