#include "payoff_json.hpp"

#include <fmt/format.h>
#include <charconv>
#include <limits>
#include <map>
#include <nlohmann/json.hpp>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* format_name = "fingerway/payoff-work";

template <class T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json();
}

std::optional<double> number_if(const Json& json) {
  return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

/// A whole number within bounds: the library would take any number for one, whatever becomes of it.
template <class Whole>
Whole whole_of(const Json& json, Whole least, Whole most) {
  if (json.is_number_unsigned()) {
    const auto value = json.get<std::uint64_t>();
    if (value <= static_cast<std::uint64_t>(most)) return static_cast<Whole>(value);
  } else if (json.is_number_integer() && json.get<std::int64_t>() >= static_cast<std::int64_t>(least)) {
    return static_cast<Whole>(json.get<std::int64_t>());
  }
  throw std::invalid_argument("no such number");
}

TouchSet touches_of(const Json& json) {
  return TouchSet::from_bits(whole_of<std::uint64_t>(json, 0, std::numeric_limits<std::uint64_t>::max()));
}

/// Touches by their bits: the key of a unit covers the instrument they belong to.
Json fingering_json(const std::optional<Fingering>& f) {
  if (!f) return {};
  return Json::array({f->pressed.bits(), f->half.bits(), f->flicked.bits()});
}

std::optional<Fingering> fingering_of(const Json& json) {
  if (json.is_null()) return std::nullopt;
  Fingering f;
  f.pressed = touches_of(json.at(0));
  f.half = touches_of(json.at(1));
  f.flicked = touches_of(json.at(2));
  return f;
}

Json note_json(const OutcomeNote& note) {
  Json json = Json::array({fingering_json(note.fingering), fingering_json(note.other), or_null(note.rate)});
  if (note.arrive) {
    json.push_back(Json::array({note.arrive->time_ms, note.arrive->available_ms, note.arrive->possible}));
  }
  return json;
}

OutcomeNote note_of(const Json& json) {
  OutcomeNote note;
  note.fingering = fingering_of(json.at(0));
  note.other = fingering_of(json.at(1));
  note.rate = number_if(json.at(2));
  if (json.size() > 3) {
    const Json& arrive = json.at(3);
    note.arrive = OutcomeChange{.time_ms = arrive.at(0).get<double>(),
                                .available_ms = arrive.at(1).get<double>(),
                                .possible = arrive.at(2).get<bool>()};
  }
  return note;
}

Json outcome_json(const PassageOutcome& o) {
  std::string verdicts;
  for (Verdict verdict : o.verdicts) verdicts += static_cast<char>('0' + static_cast<int>(verdict));
  Json json = {{"micro_points", o.micro_points},
               {"awkwardness", o.awkwardness},
               {"worst_load", o.worst_load},
               {"complete", o.complete},
               {"fits", o.fits},
               {"ceiling", or_null(o.ceiling)},
               {"best_ceiling", or_null(o.best_ceiling)},
               {"verdicts", verdicts}};
  if (!o.notes.empty()) {
    json["notes"] = Json::array();
    for (const OutcomeNote& note : o.notes) json["notes"].push_back(note_json(note));
  }
  return json;
}

PassageOutcome outcome_of_json(const Json& json) {
  PassageOutcome o;
  o.micro_points = whole_of<std::int64_t>(json.at("micro_points"), -forbidden, forbidden);
  o.awkwardness = json.at("awkwardness").get<double>();
  o.worst_load = json.at("worst_load").get<double>();
  o.complete = json.at("complete").get<bool>();
  o.fits = json.at("fits").get<bool>();
  o.ceiling = number_if(json.at("ceiling"));
  o.best_ceiling = number_if(json.at("best_ceiling"));
  for (char c : json.at("verdicts").get<std::string>()) {
    if (c < '0' || c > '3') throw std::invalid_argument("no verdict");
    o.verdicts.push_back(static_cast<Verdict>(c - '0'));
  }
  if (json.contains("notes")) {
    for (const Json& note : json.at("notes")) o.notes.push_back(note_of(note));
    if (o.notes.size() != o.verdicts.size()) throw std::invalid_argument("notes and verdicts differ");
  }
  return o;
}

[[noreturn]] void refuse(const std::string& file, int line, const std::string& what,
                         const std::string& hint = "a work file is written by fingerway payoff --work") {
  Fault fault;
  fault.place.file = file;
  fault.place.line = line;
  fault.what = what;
  fault.hint = hint;
  throw InputError(std::move(fault));
}

}  // namespace

std::string request_line(const PayoffRequest& request) {
  Json json = {{"format", format_name},
               {"version", 1},
               {"repertoire", request.repertoire},
               {"instrument", request.played.instrument},
               {"level", words(request.played.level)},
               {"latches", request.played.latches},
               {"player", request.played.player},
               {"conversions", request.conversions},
               {"budget", or_null(request.budget)},
               {"samples", request.samples}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

PayoffRequest parse_request_line(const std::string& line, const std::string& file) {
  PayoffRequest request;
  try {
    const Json json = Json::parse(line);
    if (json.at("format") != format_name || json.at("version") != 1) refuse(file, 1, "is no work file of a payoff");
    request.repertoire = json.at("repertoire").get<std::string>();
    request.played.instrument = json.at("instrument").get<std::string>();
    const auto level = json.at("level").get<std::string>();
    for (Level known : {Level::professional, Level::amateur, Level::beginner}) {
      if (words(known) == level) request.played.level = known;
    }
    request.played.latches = json.at("latches").get<std::vector<std::string>>();
    request.played.player = json.at("player").get<std::string>();
    request.conversions = json.at("conversions").get<std::vector<std::string>>();
    request.budget = number_if(json.at("budget"));
    request.samples = whole_of<std::size_t>(json.at("samples"), 0, most_samples);
  } catch (const Json::exception&) {
    refuse(file, 1, "is no work file of a payoff");
  } catch (const std::invalid_argument&) {
    refuse(file, 1, "is no work file of a payoff");
  }
  return request;
}

std::string unit_line(std::uint64_t key, const PassageOutcome& outcome) {
  const Json json = {{"unit", fmt::format("{:016x}", key)}, {"outcome", outcome_json(outcome)}};
  return json.dump() + "\n";
}

std::pair<std::uint64_t, PassageOutcome> parse_unit_line(const std::string& line, const std::string& file, int number) {
  try {
    const Json json = Json::parse(line);
    const auto text = json.at("unit").get<std::string>();
    std::uint64_t key = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), key, 16);
    if (error != std::errc() || end != text.data() + text.size()) throw std::invalid_argument("no key");
    return {key, outcome_of_json(json.at("outcome"))};
  } catch (const Json::exception&) {
    refuse(file, number, "this line holds no result of a payoff", "delete the line: what it held is worked out again");
  } catch (const std::invalid_argument&) {
    refuse(file, number, "this line holds no result of a payoff", "delete the line: what it held is worked out again");
  }
}

}  // namespace fingerway
