#include "asks.hpp"

#include <map>

#include "json_fields.hpp"

namespace fingerway {
namespace {

constexpr std::size_t most_notes = 1'000'000;
constexpr std::size_t most_choices = 20'000;
constexpr std::size_t most_spans = 200;
constexpr std::size_t most_anchors = 2'000;
constexpr double widest_picture = 20'000;

void read_played(JsonFields& fields, PlayedRequest& played) {
  played.instrument = fields.text("instrument", true);
  static const std::map<std::string, Level> levels = {
      {"professional", Level::professional}, {"amateur", Level::amateur}, {"beginner", Level::beginner}};
  played.level = levels.at(fields.word("level", {"beginner", "amateur", "professional"}, "amateur"));
  played.player_text = fields.text("player");
  played.latches = fields.texts("latches");
}

std::vector<AskedStretch> read_stretches(JsonFields& fields, const std::string& name) {
  std::vector<AskedStretch> stretches;
  fields.each(name, most_choices, [&](JsonFields& item) {
    AskedStretch stretch;
    stretch.first = item.count("first", most_notes, true).value_or(0);
    stretch.last = item.count("last", most_notes, true).value_or(stretch.first);
    stretch.touches = item.texts("touches");
    if (stretch.touches.empty()) item.fault("touches", "names no touch");
    if (stretch.last < stretch.first) item.fault("last", "comes before 'first'");
    stretches.push_back(std::move(stretch));
  });
  return stretches;
}

void read_choices(JsonFields& fields, AskedChoices& choices) {
  fields.each("pins", most_choices, [&](JsonFields& item) {
    AskedPin pin;
    pin.note = item.count("note", most_notes, true).value_or(0);
    pin.press = item.texts("press");
    pin.half = item.texts("half");
    pin.flick = item.texts("flick");
    pin.whole = item.flag("whole", true);
    choices.pins.push_back(std::move(pin));
  });
  choices.bans = read_stretches(fields, "bans");
  choices.holds = read_stretches(fields, "holds");
}

void read_plan(JsonFields& fields, PlanAsk& ask, bool needed) {
  ask.score = fields.text("score", needed);
  ask.passage.choice.part = fields.text("part");
  ask.passage.choice.voice = fields.text("voice");
  if (const auto staff = fields.count("staff", 99); staff && *staff > 0) {
    ask.passage.choice.staff = static_cast<int>(*staff);
  }
  static const std::map<std::string, Divisi> divisi = {
      {"refuse", Divisi::refuse}, {"top", Divisi::top}, {"bottom", Divisi::bottom}};
  ask.passage.choice.divisi = divisi.at(fields.word("divisi", {"refuse", "top", "bottom"}, "refuse"));
  if (fields.flag("as_written", false)) ask.passage.choice.order = PlayOrder::as_written;
  if (fields.flag("concert", false)) ask.passage.choice.concert = ConcertPitch::concert;
  if (fields.flag("main_notes", false)) ask.passage.choice.ornaments = Ornaments::main_note;
  ask.passage.bars = fields.text("bars");
  ask.passage.tempo = fields.number("tempo", 1, 1000);
  if (needed) {
    read_played(fields, ask.played);
  } else {
    ask.played.instrument = fields.text("instrument");
  }
}

LaneSpan read_span(JsonFields& fields) {
  LaneSpan span;
  span.first = fields.count("first", most_notes, true).value_or(0);
  span.last = fields.count("last", most_notes, true).value_or(span.first);
  span.width = fields.number("width", 200, widest_picture).value_or(852);
  for (const auto& [ms, x] : fields.pairs("anchors", most_anchors)) {
    const bool rises = span.anchors.empty() || (span.anchors.back().at < Ms(ms) && span.anchors.back().x <= x);
    if (!rises || x < 0 || x > widest_picture) {
      fields.fault("anchors", "must rise in time and not fall in place, within the picture",
                   "[[ms, x], ...]; bars played again go into a span of their own");
      break;
    }
    span.anchors.push_back({.at = Ms(ms), .x = x});
  }
  if (span.last < span.first) fields.fault("last", "comes before 'first'");
  return span;
}

TrillAsk read_trills(JsonFields& fields) {
  TrillAsk ask;
  read_played(fields, ask.played);
  return ask;
}

MarkWhich which_marks(const std::string& word) { return word == "all" ? MarkWhich::all : MarkWhich::choices; }

template <class Ask, class Read>
Ask parsed(std::string_view body, const Read& read) {
  Ask ask;
  read_json_request(body, [&](JsonFields& fields) { read(fields, ask); });
  return ask;
}

}  // namespace

PlanAsk parse_plan_ask(std::string_view body) {
  return parsed<PlanAsk>(body, [](JsonFields& fields, PlanAsk& ask) {
    read_plan(fields, ask, true);
    ask.with = fields.text("with");
    ask.smoothest = fields.word("objective", {"least_awkward", "smoothest"}, "least_awkward") == "smoothest";
    fields.inner("choices", [&](JsonFields& inner) { read_choices(inner, ask.choices); });
    bool second = false;
    fields.each("sides", 1, [&](JsonFields& inner) {
      read_choices(inner, ask.second_choices);
      second = true;
    });
    if (second && ask.with.empty()) fields.fault("sides", "are choices of a second instrument", "add 'with'");
  });
}

EngravingAsk parse_engraving_ask(std::string_view body) {
  return parsed<EngravingAsk>(body, [](JsonFields& fields, EngravingAsk& ask) {
    ask.plan = fields.text("plan");
    ask.side = fields.count("side", 1).value_or(0);
    const std::string marks = fields.word("mark", {"choices", "all", "none"}, "choices");
    if (marks != "none") ask.marks = which_marks(marks);
    read_plan(fields, ask.passage, false);
    if (ask.plan.empty() && (ask.passage.score.empty() || ask.passage.played.instrument.empty())) {
      fields.fault("plan", "is missing", "a plan, or a score and an instrument");
    }
  });
}

LanesAsk parse_lanes_ask(std::string_view body) {
  return parsed<LanesAsk>(body, [](JsonFields& fields, LanesAsk& ask) {
    ask.plan = fields.text("plan", true);
    fields.each("spans", most_spans, [&](JsonFields& item) { ask.spans.push_back(read_span(item)); });
  });
}

NoteAsk parse_note_ask(std::string_view body) {
  return parsed<NoteAsk>(body, [](JsonFields& fields, NoteAsk& ask) {
    ask.plan = fields.text("plan", true);
    ask.side = fields.count("side", 1).value_or(0);
    ask.note = fields.count("note", most_notes, true).value_or(0);
    ask.most = fields.count("most", 30).value_or(ask.most);
    ask.width = fields.number("width", 200, 2000).value_or(ask.width);
  });
}

TrillAsk parse_trills_ask(std::string_view body) {
  return parsed<TrillAsk>(body, [](JsonFields& fields, TrillAsk& ask) {
    ask = read_trills(fields);
    ask.widest = static_cast<int>(fields.count("widest", 12).value_or(12));
  });
}

TrillAsk parse_trill_ask(std::string_view body) {
  return parsed<TrillAsk>(body, [](JsonFields& fields, TrillAsk& ask) {
    ask = read_trills(fields);
    ask.from = fields.text("from", true);
    ask.to = fields.text("to", true);
    ask.width = fields.number("width", 200, 2000).value_or(ask.width);
  });
}

ChoicesAsk parse_choices_ask(std::string_view body) {
  return parsed<ChoicesAsk>(body, [](JsonFields& fields, ChoicesAsk& ask) {
    ask.plan = fields.text("plan", true);
    ask.side = fields.count("side", 1).value_or(0);
    ask.text = fields.text("text", true);
  });
}

SaveAsk parse_save_ask(std::string_view body) {
  return parsed<SaveAsk>(body, [](JsonFields& fields, SaveAsk& ask) {
    ask.plan = fields.text("plan", true);
    ask.side = fields.count("side", 1).value_or(0);
    ask.kind = fields.word("kind", {"musicxml", "choices", "json", "csv", "page"}, "");
    if (ask.kind.empty()) fields.fault("kind", "is missing", "one of musicxml, choices, json, csv, page");
    ask.marks = which_marks(fields.word("mark", {"choices", "all"}, "choices"));
    fields.each("systems", most_spans * 10, [&](JsonFields& item) {
      EngravedSystem system;
      system.svg = item.text("svg", true);
      system.span = read_span(item);
      ask.systems.push_back(std::move(system));
    });
  });
}

std::string parse_one_text(std::string_view body, const std::string& field) {
  std::string text;
  read_json_request(body, [&](JsonFields& fields) { text = fields.text(field, true); });
  return text;
}

}  // namespace fingerway
