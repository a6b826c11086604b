#include "requests.hpp"

#include <algorithm>
#include <sstream>

#include "data_folders.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/base/text.hpp"
#include "fingerway/plan/planner.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/read/player_file.hpp"
#include "fingerway/read/score_bytes.hpp"
#include "fingerway/report/marks.hpp"

namespace fingerway {
namespace {

constexpr std::size_t most_messages = 8;

std::vector<std::string> measure_names(const Passage& passage) {
  std::vector<std::string> names;
  for (const Measure& measure : passage.measures) names.push_back(measure.name);
  return names;
}

std::string measure_hint(const Passage& passage, const std::string& asked) {
  const std::vector<std::string> names = measure_names(passage);
  const std::string near = nearest_word(asked, names);
  const std::string range = names.empty() ? "the part has no bars" : "bars " + names.front() + " to " + names.back();
  return near.empty() ? range : range + "; did you mean " + near + "?";
}

Passage cut(const Passage& passage, const std::string& asked) {
  // A bar's printed name may itself hold a hyphen, so a whole name is tried first.
  std::string first = asked;
  std::string last = asked;
  if (!find_measure(passage, asked)) {
    const std::size_t dash = asked.find('-');
    first = asked.substr(0, dash);
    last = dash == std::string::npos ? first : asked.substr(dash + 1);
  }
  const Place place{.file = passage.file, .line = 0, .column = 0, .within = "part " + passage.part_id};
  for (const std::string& name : {first, last}) {
    if (!find_measure(passage, name)) {
      throw InputError(Fault{place, "no bar '" + name + "'", measure_hint(passage, name)});
    }
  }
  if (*find_measure(passage, last) < *find_measure(passage, first)) {
    throw InputError(Fault{place, "bar '" + last + "' comes before bar '" + first + "'", "write --bars FIRST-LAST"});
  }
  Passage part = bars(passage, first, last);
  if (part.notes.empty()) throw InputError(Fault{place, "no notes in bars " + asked, ""});
  return part;
}

/// Collects faults of one choices file while its names are looked up.
class Resolver {
 public:
  Resolver(const Passage& passage, const Played& played) : passage_(passage), played_(played) {}

  Choices resolve(const ChoicesFile& file) {
    for (const WrittenPin& pin : file.pins) add_pin(pin);
    for (const WrittenStretch& ban : file.bans) {
      if (const auto span = stretch(ban)) {
        choices_.bans.push_back({.first = span->first, .last = span->last, .touches = touches(ban.touches, ban.place)});
      }
    }
    for (const WrittenStretch& hold : file.holds) {
      if (const auto span = stretch(hold)) {
        choices_.holds.push_back(
            {.first = span->first, .last = span->last, .touches = touches(hold.touches, hold.place)});
      }
    }
    if (!faults_.empty()) throw InputError(faults_);
    const std::vector<std::size_t> bare = Planner(played_).left_without(passage_, choices_);
    require_possible(passage_, played_, file.file,
                     [&](std::size_t note) { return !std::ranges::binary_search(bare, note); });
    return choices_;
  }

 private:
  struct Span {
    std::size_t first;
    std::size_t last;
  };

  TouchSet touches(const std::vector<std::string>& names, const Place& place) {
    return touches_named(names, played_.instrument, place, faults_);
  }

  std::optional<std::size_t> note(const BarBeat& at, const Place& place) {
    try {
      return note_at(passage_, at, place);
    } catch (const InputError& error) {
      faults_.insert(faults_.end(), error.faults().begin(), error.faults().end());
      return std::nullopt;
    }
  }

  void add_pin(const WrittenPin& pin) {
    Pin resolved;
    resolved.whole = pin.whole;
    resolved.fingering.half = touches(pin.touches.half, pin.place);
    resolved.fingering.pressed = touches(pin.touches.press, pin.place) | resolved.fingering.half;
    resolved.fingering.flicked = touches(pin.touches.flick, pin.place);
    const auto at = note(pin.at, pin.place);
    if (!at) return;
    resolved.note = *at;
    if (faults_.empty()) {
      if (auto fault = pin_fault(resolved, passage_, played_, pin.place)) faults_.push_back(std::move(*fault));
    }
    choices_.pins.push_back(resolved);
  }

  std::optional<Span> stretch(const WrittenStretch& written) {
    Span span{.first = 0, .last = passage_.notes.size() - 1};
    if (written.from) {
      const auto first = note(*written.from, written.place);
      if (!first) return std::nullopt;
      span.first = *first;
    }
    if (written.to) {
      const auto last = written.to->beat ? note(*written.to, written.place)
                                         : last_of(written.to->bar, written.to->time, written.place);
      if (!last) return std::nullopt;
      span.last = *last;
    }
    if (span.last < span.first) {
      faults_.push_back({written.place, "the stretch ends before it starts", ""});
      return std::nullopt;
    }
    return span;
  }

  std::optional<std::size_t> last_of(const std::string& bar, int time, const Place& place) {
    auto found = note({.bar = bar, .beat = {}, .time = time}, place);
    if (!found) return found;
    const std::uint32_t measure = passage_.notes[*found].place.measure;
    while (*found + 1 < passage_.notes.size() && passage_.notes[*found + 1].place.measure == measure) ++*found;
    return found;
  }

  const Passage& passage_;
  const Played& played_;
  Choices choices_;
  std::vector<Fault> faults_;
};

/// "press LT.whisper L1.hole half L1.hole flick LT.flick-a": the form in which our marks carry every touch.
std::optional<Fingering> spelled_out(const std::string& text, const Instrument& instrument) {
  std::istringstream words(text);
  Fingering fingering;
  TouchSet* into = nullptr;
  for (std::string word; words >> word;) {
    if (word == "press") {
      into = &fingering.pressed;
    } else if (word == "half") {
      into = &fingering.half;
    } else if (word == "flick") {
      into = &fingering.flicked;
    } else if (const auto touch = find_touch(instrument, word); touch && into != nullptr) {
      into->insert(*touch);
    } else {
      return std::nullopt;
    }
  }
  fingering.pressed |= fingering.half;
  return into == nullptr ? std::nullopt : std::optional(fingering);
}

std::optional<Fingering> table_fingering(const std::string& mark, WrittenPitch pitch, const Instrument& instrument) {
  for (const TableFingering& line : instrument.table) {
    if (line.pitch == pitch && !line.mark.empty() && line.mark == mark) return line.fingering;
  }
  return std::nullopt;
}

}  // namespace

PartWanted wanted_part(const Instrument& instrument) {
  PartWanted wanted;
  wanted.names = instrument.score_names;
  wanted.names.push_back(instrument.name);
  wanted.sounds = instrument.score_sounds;
  wanted.lowest = instrument.lowest;
  wanted.highest = instrument.highest;
  return wanted;
}

Passage load_passage(const ScoreRequest& request, const Instrument& instrument) {
  return passage_of(load_score(request.file).text, request, instrument);
}

Passage passage_of(std::string_view score_text, const ScoreRequest& request, const Instrument& instrument) {
  ScoreChoice choice = request.choice;
  choice.wanted = wanted_part(instrument);
  Passage passage = as_read_on(parse_musicxml(score_text, request.file, choice), instrument.transposition);
  if (!request.bars.empty()) passage = cut(passage, request.bars);
  if (request.tempo) passage.tempo = passage.tempo.starting_at(Qpm(*request.tempo));
  return passage;
}

void engage(Instrument& instrument, const std::vector<std::string>& latches, const Place& at) {
  for (const std::string& id : latches) {
    if (const auto latch = find_latch(instrument, id)) {
      instrument.engaged.insert(*latch);
      continue;
    }
    std::vector<std::string> known;
    for (const Latch& latch : instrument.latches) known.push_back(latch.id);
    throw InputError(Fault{at, "no latch '" + id + "' on " + stacked_id(instrument),
                           known.empty() ? "this instrument has none" : suggestion(id, known)});
  }
}

Played load_played(const PlayedRequest& request, const InstrumentFolders& folders) {
  Instrument instrument = read_instrument(request.instrument, folders);
  engage(instrument, request.latches, {});
  const MotionNumbers numbers = read_motion_numbers(motion_file(folders));
  const bool by_text = !request.player_text.empty();
  if (request.player.empty() && !by_text) return played(std::move(instrument), numbers, request.level);
  const Player player = by_text ? parse_player(request.player_text, "player", instrument, folders)
                                : read_player(request.player, instrument, folders);
  Played result = played(std::move(instrument), numbers, player);
  // On another member of the family what sounds on the player's own may not; that is no slip.
  const std::string described =
      by_text ? parse_player_instrument(request.player_text, "player") : player_instrument(player.file);
  if (described == stacked_id(result.instrument)) require_sounding(result);
  return result;
}

void require_same_base(const Instrument& stock, const Instrument& converted) {
  if (stock.id == converted.id) return;
  throw InputError(Fault{{},
                         stock.name + " and " + converted.name + " are different instruments",
                         "compare one instrument with a conversion of it"});
}

void require_sounding(const Played& played) {
  const Player& player = played.player;
  std::vector<Fault> faults;
  const auto check_list = [&](const std::vector<OwnFingering>& list, const char* what) {
    for (const OwnFingering& own : list) {
      // A line of the table may have lost its note by a conversion; only what the player wrote out can be a slip.
      const bool of_table = std::ranges::any_of(played.instrument.table, [&](const TableFingering& line) {
        return line.pitch == own.pitch && line.fingering == own.fingering;
      });
      if (of_table || as_candidate(played.instrument, played.derivation, own.pitch, own.fingering)) continue;
      faults.push_back(
          {{.file = player.file, .line = 0, .column = 0, .within = what},
           "these touches do not sound " + name(chart_spelling(own.pitch)) + " on " + stacked_id(played.instrument),
           "fingerway chart lists what does"});
    }
  };
  if (player.learned) check_list(*player.learned, "learned");
  check_list(player.not_learned, "not_learned");
  check_list(player.preferred, "preferred and habits");
  if (!faults.empty()) throw InputError(faults);
}

Choices resolve(const ChoicesFile& file, const Passage& passage, const Played& played) {
  return Resolver(passage, played).resolve(file);
}

TouchSet touches_named(const std::vector<std::string>& names, const Instrument& instrument, const Place& place,
                       std::vector<Fault>& faults) {
  TouchSet set;
  for (const std::string& name : names) {
    if (const auto touch = find_touch(instrument, name)) {
      set.insert(*touch);
      continue;
    }
    std::vector<std::string> known;
    for (const Touch& touch : instrument.touches) known.push_back(full_name(touch));
    faults.push_back({place, "no touch '" + name + "' on " + stacked_id(instrument), suggestion(name, known)});
  }
  return set;
}

std::optional<Fault> pin_fault(const Pin& pin, const Passage& passage, const Played& played, const Place& place) {
  if (!pin.whole) return std::nullopt;
  const NoteEvent& note = passage.notes[pin.note];
  if (!as_candidate(played.instrument, played.derivation, note.pitch, pin.fingering)) {
    return Fault{place, "these touches do not sound " + name(note.spelling) + " on " + stacked_id(played.instrument),
                 "fingerway chart lists what does; with: [...] asks for some touches only"};
  }
  if (!plays(played.player, played.instrument, note.pitch, pin.fingering)) {
    return Fault{place, "the player file rules this fingering out", "loosen the pin, or the player file"};
  }
  return std::nullopt;
}

void require_possible(const Passage& passage, const Played& played, const std::string& file,
                      const std::function<bool(std::size_t)>& left) {
  std::vector<Fault> faults;
  for (std::size_t i = 0; i < passage.notes.size() && faults.size() < most_messages; ++i) {
    if (left(i) || played.derivation.of(passage.notes[i].pitch).empty()) continue;
    faults.push_back({{.file = file, .line = 0, .column = 0, .within = {}},
                      "the choices leave no fingering for " + name(passage.notes[i].spelling) + " in bar " +
                          passage.measures[passage.notes[i].place.measure].name + ", beat " +
                          beat_name(passage, passage.notes[i]),
                      "loosen a pin, ban or hold there"});
  }
  if (!faults.empty()) throw InputError(faults);
}

void keep_marked(Passage& passage, const Played& played, Choices& choices) {
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    const NoteEvent& note = passage.notes[i];
    if (note.marked.empty() || note.part != NotePart::plain) continue;
    std::optional<Fingering> kept;
    for (const std::string& mark : note.marked) {
      if (!kept) kept = spelled_out(mark, played.instrument);
    }
    for (const std::string& mark : note.marked) {
      if (!kept) kept = table_fingering(plain_text(mark), note.pitch, played.instrument);
    }
    if (kept && as_candidate(played.instrument, played.derivation, note.pitch, *kept)) {
      choices.pins.push_back({.note = i, .fingering = *kept, .whole = true});
    } else {
      passage.remarks.push_back({"measure " + passage.measures[note.place.measure].name,
                                 "the mark '" + plain_text(note.marked.front()) + "' on " + name(note.spelling) +
                                     " names no fingering of " + stacked_id(played.instrument) + ": not kept"});
    }
  }
}

std::size_t note_at(const Passage& passage, const BarBeat& at, const Place& place) {
  const auto measure = find_measure(passage, at.bar, at.time);
  if (!measure && find_measure(passage, at.bar)) {
    throw InputError(Fault{place, "bar '" + at.bar + "' is not played " + std::to_string(at.time) + " times",
                           "leave 'time " + std::to_string(at.time) + "' out for the first"});
  }
  if (!measure) throw InputError(Fault{place, "no bar '" + at.bar + "'", measure_hint(passage, at.bar)});
  std::optional<std::size_t> sounding;
  std::string beats;
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    if (passage.notes[i].place.measure != *measure) continue;
    if (!at.beat) return i;
    beats += (beats.empty() ? "" : ", ") + beat_name(passage, passage.notes[i]);
    if (beat_of(passage, passage.notes[i]) <= *at.beat) sounding = i;
    if (beat_of(passage, passage.notes[i]) == *at.beat) break;
  }
  if (sounding && beat_of(passage, passage.notes[*sounding]) == *at.beat) return *sounding;
  throw InputError(Fault{place, at.beat ? "no note starts there" : "no note starts in bar '" + at.bar + "'",
                         beats.empty() ? "" : "notes of bar " + at.bar + " start at beats " + beats});
}

std::vector<Fault> unplayable(const Passage& passage, const Played& played, const Plan& plan) {
  std::vector<Fault> faults;
  const Instrument& instrument = played.instrument;
  const std::string range = name(chart_spelling(instrument.lowest)) + " to " + name(chart_spelling(instrument.highest));
  std::size_t more = 0;
  for (std::size_t i = 0; i < plan.notes.size(); ++i) {
    if (plan.notes[i].candidate) continue;
    if (faults.size() == most_messages) {
      ++more;
      continue;
    }
    const NoteEvent& note = passage.notes[i];
    const bool outside = note.pitch < instrument.lowest || instrument.highest < note.pitch;
    faults.push_back({{.file = passage.file,
                       .line = 0,
                       .column = 0,
                       .within = "part " + passage.part_id + " measure " + passage.measures[note.place.measure].name},
                      "no fingering for " + name(note.spelling) + " on " + stacked_id(instrument),
                      outside ? "its range is " + range : "the fingering table has none for this note"});
  }
  if (more > 0) {
    faults.push_back({{.file = passage.file, .line = 0, .column = 0, .within = "part " + passage.part_id},
                      "no fingering for " + std::to_string(more) + " more notes",
                      "is this the right part, and the right instrument?"});
  }
  return faults;
}

WrittenPitch pitch_named(const std::string& text, const Instrument& instrument) {
  const auto spelling = parse_spelling(text);
  if (!spelling) throw InputError(Fault{{}, "'" + text + "' is not a note name", "as Db2, F#3, C4 (middle C)"});
  const WrittenPitch pitch = written(*spelling);
  if (pitch < instrument.lowest || instrument.highest < pitch) {
    throw InputError(
        Fault{{},
              text + " is outside the range of " + stacked_id(instrument),
              name(chart_spelling(instrument.lowest)) + " to " + name(chart_spelling(instrument.highest))});
  }
  return pitch;
}

}  // namespace fingerway
