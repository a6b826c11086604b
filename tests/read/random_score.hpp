// Random valid MusicXML with the events it must be read as: dots, ties, slurs, tuplets (also nested), rests, changing
// divisions and time signatures, a second voice, repeated sections. The same seed gives the same score everywhere.
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway::test {

/// What a random score may hold.
struct RandomKind {
  bool nested_tuplets = true;
  bool second_voice = true;
  bool repeats = true;
};

/// An event as it must be read.
struct RandomEvent {
  std::string name;
  ScoreTime onset;
  ScoreTime length;
  Attack attack = Attack::tongued;
  std::uint32_t element = 0;

  friend bool operator==(const RandomEvent&, const RandomEvent&) = default;
};

struct RandomScore {
  std::string text;
  std::vector<RandomEvent> events;
};

/// Makes one score from one seed.
class RandomScoreMaker {
 public:
  RandomScoreMaker(std::uint32_t seed, RandomKind kind) : random_(seed), kind_(kind) {}

  RandomScore make() {
    const std::size_t sections = 1 + below(3);
    for (std::size_t i = 0; i < sections; ++i) {
      make_section(i + 1 == sections);
    }
    RandomScore score;
    score.text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\">"
        "<part-name>Bassoon</part-name></score-part></part-list><part id=\"P1\">" +
        text_ + "</part></score-partwise>";
    score.events = std::move(events_);
    return score;
  }

 private:
  /// One <note>: its sounding length, its type with dots, and its place in tuplets.
  struct Item {
    bool rest = false;
    std::string step = "C";
    int alter = 0;
    int octave = 3;
    ScoreTime length;
    std::string type;
    int dots = 0;
    int actual = 1;
    int normal = 1;
    std::string tuplets;
    bool tie_starts = false;
    bool tie_stops = false;
    bool slur_starts = false;
    bool slur_stops = false;
  };
  struct Bar {
    std::vector<Item> items;
    ScoreTime length;
    std::string signature;
  };

  std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(random_() % n); }
  bool chance(std::uint32_t percent) { return below(100) < percent; }

  void make_section(bool last) {
    std::vector<Bar> bars(1 + below(4));
    for (Bar& bar : bars) fill(bar);
    std::vector<Item*> items;
    for (Bar& bar : bars) {
      for (Item& item : bar.items) items.push_back(&item);
    }
    tie(items);
    slur(items);
    const std::uint32_t times = kind_.repeats && !last && chance(60) ? 2 + below(2) : 1;
    std::vector<std::vector<std::uint32_t>> elements;
    for (std::size_t i = 0; i < bars.size(); ++i) {
      const std::string before =
          times > 1 && i == 0 ? "<barline location=\"left\"><repeat direction=\"forward\"/></barline>" : "";
      const std::string after = times > 1 && i + 1 == bars.size()
                                    ? "<barline location=\"right\"><repeat direction=\"backward\" times=\"" +
                                          std::to_string(times) + "\"/></barline>"
                                    : "";
      elements.push_back(write(bars[i], before, after));
    }
    for (std::uint32_t pass = 0; pass < times; ++pass) expect(bars, elements);
  }

  void fill(Bar& bar) {
    struct Signature {
      int beats;
      int type;
    };
    const std::vector<Signature> signatures = {{4, 4}, {3, 4}, {2, 4}, {6, 8}, {5, 8}, {7, 8}};
    const Signature signature = signatures[below(static_cast<std::uint32_t>(signatures.size()))];
    bar.signature = "<time><beats>" + std::to_string(signature.beats) + "</beats><beat-type>" +
                    std::to_string(signature.type) + "</beat-type></time>";
    bar.length = ScoreTime(signature.beats) * ScoreTime(4, signature.type);
    ScoreTime left = bar.length;
    while (!left.is_zero()) {
      if (left >= ScoreTime(1) && chance(20)) {
        add_group(bar, 3, 2, "eighth", ScoreTime(1, 2));
        left = left - ScoreTime(1);
      } else if (left >= ScoreTime(1) && chance(10)) {
        add_group(bar, 5, 4, "16th", ScoreTime(1, 4));
        left = left - ScoreTime(1);
      } else if (kind_.nested_tuplets && left >= ScoreTime(2) && chance(15)) {
        add_nested(bar);
        left = left - ScoreTime(2);
      } else {
        left = left - add_plain(bar, left);
      }
    }
  }

  Item random_item() {
    Item item;
    item.rest = chance(15);
    item.step = std::string(1, static_cast<char>('A' + below(7)));
    item.alter = static_cast<int>(below(3)) - 1;
    item.octave = 2 + static_cast<int>(below(3));
    return item;
  }

  ScoreTime add_plain(Bar& bar, ScoreTime left) {
    struct Value {
      const char* type;
      ScoreTime length;
    };
    const std::vector<Value> values = {{"half", ScoreTime(2)},
                                       {"quarter", ScoreTime(1)},
                                       {"eighth", ScoreTime(1, 2)},
                                       {"16th", ScoreTime(1, 4)},
                                       {"32nd", ScoreTime(1, 8)}};
    for (;;) {
      Item item = random_item();
      const Value& value = values[below(static_cast<std::uint32_t>(values.size()))];
      item.type = value.type;
      // A dotted 32nd would leave bits that no value here fills.
      item.dots = value.length > ScoreTime(1, 4) ? static_cast<int>(below(3)) : 0;
      item.length = value.length;
      if (item.dots > 0) item.length += value.length / ScoreTime(2);
      if (item.dots > 1) item.length += value.length / ScoreTime(4);
      if (left < item.length) continue;
      const ScoreTime length = item.length;
      bar.items.push_back(std::move(item));
      return length;
    }
  }

  static std::string tuplet(const char* type, int number) {
    return "<tuplet type=\"" + std::string(type) + "\" number=\"" + std::to_string(number) + "\"/>";
  }

  void add_group(Bar& bar, int actual, int normal, const std::string& type, ScoreTime value) {
    for (int i = 0; i < actual; ++i) {
      Item item = random_item();
      item.type = type;
      item.actual = actual;
      item.normal = normal;
      item.length = value * ScoreTime(normal, actual);
      if (i == 0) item.tuplets = tuplet("start", 1);
      if (i + 1 == actual) item.tuplets = tuplet("stop", 1);
      bar.items.push_back(std::move(item));
    }
  }

  /// Three quarters in the time of two, the middle one three eighths in the time of two of them.
  void add_nested(Bar& bar) {
    for (int i = 0; i < 5; ++i) {
      Item item = random_item();
      const bool inner = i >= 1 && i <= 3;
      item.type = inner ? "eighth" : "quarter";
      item.actual = inner ? 9 : 3;
      item.normal = inner ? 4 : 2;
      item.length = inner ? ScoreTime(2, 9) : ScoreTime(2, 3);
      if (i == 0) item.tuplets = tuplet("start", 1);
      if (i == 1) item.tuplets = tuplet("start", 2);
      if (i == 3) item.tuplets = tuplet("stop", 2);
      if (i == 4) item.tuplets = tuplet("stop", 1);
      bar.items.push_back(std::move(item));
    }
  }

  void tie(const std::vector<Item*>& items) {
    for (std::size_t i = 0; i + 1 < items.size(); ++i) {
      Item& item = *items[i];
      Item& next = *items[i + 1];
      if (item.rest || next.rest || !chance(15)) continue;
      item.tie_starts = next.tie_stops = true;
      next.step = item.step;
      next.alter = item.alter;
      next.octave = item.octave;
    }
  }

  void slur(const std::vector<Item*>& items) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i]->rest || !chance(20)) continue;
      std::size_t end = i;
      while (end + 1 < items.size() && !items[end + 1]->rest && end - i < 6 && !chance(20)) ++end;
      if (end == i) continue;
      items[i]->slur_starts = items[end]->slur_stops = true;
      i = end;  // the next slur may not start where this one ends
    }
  }

  static std::string units(ScoreTime length, int divisions) { return to_string(length * ScoreTime(divisions)); }

  std::vector<std::uint32_t> write(const Bar& bar, const std::string& before, const std::string& after) {
    ++measure_;
    std::string out = "<measure number=\"" + std::to_string(measure_) + "\">" + before + "<attributes>";
    if (measure_ == 1 || chance(30)) {
      const std::vector<int> choices = {360, 720, 1080, 2520};
      divisions_ = choices[below(4)];
      out += "<divisions>" + std::to_string(divisions_) + "</divisions>";
    }
    out += (measure_ == 1 ? "<key><fifths>0</fifths></key>" : "") + bar.signature;
    if (measure_ == 1) out += "<clef><sign>F</sign><line>4</line></clef>";
    out += "</attributes>";
    if (measure_ == 1) {
      out +=
          "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>96</per-minute></metronome>"
          "</direction-type><sound tempo=\"96\"/></direction>";
    }
    std::vector<std::uint32_t> elements;
    for (const Item& item : bar.items) {
      elements.push_back(element_++);
      out += note(item);
    }
    if (kind_.second_voice && chance(40)) {
      out += "<backup><duration>" + units(bar.length, divisions_) + "</duration></backup>";
      out += "<note><pitch><step>C</step><octave>2</octave></pitch><duration>" +
             units(bar.length / ScoreTime(2), divisions_) + "</duration><voice>2</voice></note><forward><duration>" +
             units(bar.length / ScoreTime(2), divisions_) + "</duration></forward>";
      ++element_;
    }
    text_ += out + after + "</measure>";
    return elements;
  }

  [[nodiscard]] std::string note(const Item& item) const {
    std::string out = "<note>";
    if (item.rest) {
      out += "<rest/>";
    } else {
      out += "<pitch><step>" + item.step + "</step><alter>" + std::to_string(item.alter) + "</alter><octave>" +
             std::to_string(item.octave) + "</octave></pitch>";
    }
    out += "<duration>" + units(item.length, divisions_) + "</duration>";
    if (item.tie_stops) out += "<tie type=\"stop\"/>";
    if (item.tie_starts) out += "<tie type=\"start\"/>";
    out += "<voice>1</voice><type>" + item.type + "</type>";
    for (int i = 0; i < item.dots; ++i) out += "<dot/>";
    if (item.actual != 1) {
      out += "<time-modification><actual-notes>" + std::to_string(item.actual) + "</actual-notes><normal-notes>" +
             std::to_string(item.normal) + "</normal-notes></time-modification>";
    }
    std::string notations = item.tuplets;
    if (item.tie_stops) notations += "<tied type=\"stop\"/>";
    if (item.tie_starts) notations += "<tied type=\"start\"/>";
    if (item.slur_stops) notations += "<slur type=\"stop\" number=\"1\"/>";
    if (item.slur_starts) notations += "<slur type=\"start\" number=\"1\"/>";
    if (!notations.empty()) out += "<notations>" + notations + "</notations>";
    return out + "</note>";
  }

  void expect(const std::vector<Bar>& bars, const std::vector<std::vector<std::uint32_t>>& elements) {
    bool slurred = false;
    bool rested = true;
    for (std::size_t b = 0; b < bars.size(); ++b) {
      for (std::size_t i = 0; i < bars[b].items.size(); ++i) {
        const Item& item = bars[b].items[i];
        if (item.tie_stops) {
          events_.back().length += item.length;
        } else if (!item.rest) {
          const Spelling spelling{item.step.front(), item.alter, item.octave};
          events_.push_back({name(spelling), now_, item.length, slurred && !rested ? Attack::slurred : Attack::tongued,
                             elements[b][i]});
        }
        rested = item.rest;
        if (item.slur_stops) slurred = false;
        if (item.slur_starts) slurred = true;
        now_ += item.length;
      }
    }
  }

  std::mt19937 random_;
  RandomKind kind_;
  int measure_ = 0;
  int divisions_ = 360;
  std::uint32_t element_ = 0;
  ScoreTime now_;
  std::string text_;
  std::vector<RandomEvent> events_;
};

}  // namespace fingerway::test
