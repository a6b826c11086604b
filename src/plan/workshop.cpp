#include <algorithm>

#include "passage_ways.hpp"

namespace fingerway {
namespace {

/// Beyond so many notes, or bytes of prices, all are dropped and made again when asked for.
constexpr std::size_t most_notes = 20'000;
constexpr std::size_t most_price_bytes = 80'000'000;
constexpr std::size_t most_contexts = 100;

}  // namespace

Workshop::Workshop(const Played& played)
    : played_(played),
      changes_{HandChanges(played.hand, Hand::left), HandChanges(played.hand, Hand::right)},
      admission_(played),
      passing_(played) {}

std::vector<Workshop::WantNumber> Workshop::wants(const std::vector<AdmitNote>& entries, const Choices& choices) {
  std::vector<WantNumber> numbers;
  numbers.reserve(entries.size());
  for (const Want& want : admission_.wants(entries, choices)) numbers.push_back(wants_.number(want));
  return numbers;
}

std::shared_ptr<const Workshop::Admitted> Workshop::admitted(WantNumber want) {
  if (admitted_.size() > most_notes) admitted_.clear();
  std::shared_ptr<const Admitted>& known = admitted_[want];
  if (known) return known;
  auto made = std::make_shared<Admitted>();
  made->candidates = admission_.meeting(wants_[want]);
  std::vector<const Candidate*> all;
  for (const Candidate& c : made->candidates) {
    all.push_back(&c);
    made->numbers.push_back(sounded_.number({wants_[want].pitch, c.fingering}));
  }
  made->use = finger_use(played_, all);
  return known = std::move(made);
}

std::shared_ptr<const NoteWays> Workshop::ways(std::uint32_t note) {
  if (ways_.size() > most_notes) ways_.clear();
  std::shared_ptr<const NoteWays>& known = ways_[note];
  if (known) return known;
  const NoteKey& key = notes[note];
  static const std::vector<Candidate> none;
  const auto own = admitted(key.want);
  const auto second = key.second ? admitted(*key.second) : nullptr;
  return known = std::make_shared<const NoteWays>(note_ways(played_, changes_, key.asked, own->candidates,
                                                            second ? second->candidates : none, places[key.places]));
}

std::shared_ptr<StepPrices> Workshop::prices(std::uint32_t from, std::uint32_t to, std::uint32_t context) {
  if (price_bytes_ > most_price_bytes) {
    prices_.clear();
    if (bounds_.size() > most_contexts) bounds_.clear();
    price_bytes_ = 0;
  }
  std::shared_ptr<StepPrices>& known = prices_[{from, to, context}];
  if (known) return known;
  const NoteKey& a = notes[from];
  const bool second = a.asked.kind == NoteKind::tremolo && a.second.has_value();
  const auto leaving = admitted(second ? *a.second : a.want);
  const auto arriving = admitted(notes[to].want);
  const WrittenPitch from_pitch = second ? *a.asked.other : a.asked.pitch;
  const WrittenPitch to_pitch = notes[to].asked.pitch;
  auto passing = [this, leaving, arriving, from_pitch, to_pitch](std::uint32_t i, std::uint32_t j) {
    return passing_weight(from_pitch, leaving->numbers[i], to_pitch, arriving->numbers[j]);
  };
  std::shared_ptr<HandBounds>& bounds = bounds_[context];
  if (!bounds) bounds = std::make_shared<HandBounds>(played_, changes_, contexts[context]);
  known = std::make_shared<StepPrices>(played_, changes_, ways(from), ways(to), bounds, std::move(passing));
  price_bytes_ += known->bytes();
  return known;
}

Weight Workshop::passing_weight(WrittenPitch from_pitch, std::uint32_t from, WrittenPitch to_pitch, std::uint32_t to) {
  const auto [entry, is_new] = passing_weights_.try_emplace(std::uint64_t{from} << 32U | to);
  if (is_new) {
    const double semitones =
        passing_.expected_semitones(from_pitch, sounded_[from].second, to_pitch, sounded_[to].second);
    entry->second = weight(Points(played_.hand.numbers().blip_points.value * semitones));
  }
  return entry->second;
}

}  // namespace fingerway
