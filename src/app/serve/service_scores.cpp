#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <system_error>

#include "app/build_info.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/report/engraving.hpp"
#include "fingerway/report/lane_pictures.hpp"
#include "fingerway/report/view.hpp"
#include "guard.hpp"
#include "service.hpp"

namespace fingerway {
namespace {

using Value = nlohmann::ordered_json;
namespace fs = std::filesystem;

std::string text_of(const Value& json) { return json.dump(-1, ' ', false, Value::error_handler_t::replace); }

Value part_json(const PartInfo& part, const std::vector<std::string>& bars, const Catalogue& catalogue) {
  Value voices = Value::array();
  for (const VoiceInfo& voice : part.voices) {
    voices.push_back({{"voice", voice.voice}, {"staff", voice.staff}, {"notes", voice.notes}});
  }
  return {{"id", part.id},
          {"name", part.name},
          {"notes", part.notes},
          {"staves", part.staves},
          {"voices", voices},
          {"bars", bars},
          {"instruments", catalogue.instruments_for(part)}};
}

Value latches_json(const std::vector<KnownLatch>& latches) {
  Value list = Value::array();
  for (const KnownLatch& latch : latches) list.push_back({{"id", latch.id}, {"name", latch.name}});
  return list;
}

/// A display name from elsewhere: the last step of a path, without anything that does not show.
std::string shown_name(const std::string& name) {
  std::string shown = name.substr(name.find_last_of("/\\") + 1).substr(0, 200);
  std::erase_if(shown, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
  return shown.empty() ? "score" : shown;
}

}  // namespace

Service::Service(const ServiceOptions& options, const ServiceLimits& limits)
    : limits_(limits),
      catalogue_(data_folders()),
      scores_(limits.kept_score_bytes),
      plans_(limits.kept_plan_bytes),
      prepared_(limits.kept_plan_bytes / 4),
      played_(limits.kept_plan_bytes / 4),
      working_(std::max(1U, std::thread::hardware_concurrency())) {
  start_background(options);
}

Answer Service::program() const {
  Value instruments = Value::array();
  for (const KnownInstrument& instrument : catalogue_.instruments()) {
    Value conversions = Value::array();
    for (const KnownConversion& one : instrument.conversions) {
      conversions.push_back(
          {{"id", one.id}, {"name", one.name}, {"what", one.what}, {"latches", latches_json(one.latches)}});
    }
    instruments.push_back({{"id", instrument.id},
                           {"name", instrument.name},
                           {"family", instrument.family},
                           {"conversions", conversions},
                           {"latches", latches_json(instrument.latches)}});
  }
  Value demos = Value::array();
  for (const Demo& demo : catalogue_.demos()) {
    demos.push_back({{"id", demo.id}, {"title", demo.title}, {"instrument", demo.instrument}});
  }
  const Value json = {
      {"version", std::string(program_version)},
      {"levels", {"beginner", "amateur", "professional"}},
      {"instruments", instruments},
      {"demos", demos},
      {"engraver", own_data_folder("engraver").has_value()},
      {"guide", own_data_folder("guide").has_value()},
      {"repertoire", repertoire_ != nullptr},
      {"roster", roster_ != nullptr},
      {"cautions", cautions()},
      {"lanes", {{"hatching", lanes_hatching()}, {"legend", lanes_legend()}}},
      {"limits",
       {{"upload_bytes", limits_.upload_bytes}, {"notes", limits_.notes}, {"lanes_notes", limits_.lanes_notes}}}};
  return {.body = text_of(json)};
}

Answer Service::bring_score(const std::string& name, std::string bytes) {
  return told(*keep(shown_name(name), std::move(bytes)));
}

Answer Service::bring_demo(std::string_view body) {
  const Demo& demo = catalogue_.demo(parse_one_text(body, "demo"));
  return told(*keep(demo.file.filename().string(), load_score(demo.file).text));
}

std::string Service::bring_file(const std::string& path) {
  ScoreFile file = load_score(path);
  std::string bytes = file.container ? std::move(file.container->archive) : std::move(file.text);
  return keep(shown_name(path), std::move(bytes))->token;
}

Answer Service::score_again(std::string_view body) { return told(*kept_score(parse_one_text(body, "score"))); }

std::shared_ptr<const KeptScore> Service::keep(const std::string& name, std::string bytes) {
  auto score = std::make_shared<KeptScore>();
  score->token = new_token();
  score->name = name;
  score->file = parse_score_bytes(std::move(bytes), name);
  score->parts = list_parts(score->file.text, name);
  scores_.put(score->token, score, bytes_of(*score));
  return score;
}

Answer Service::told(const KeptScore& score) const {
  const ScoreOutline outline = score_outline(score.file.text);
  Value parts = Value::array();
  for (const PartInfo& part : score.parts) parts.push_back(part_json(part, outline.bars, catalogue_));
  return {.body = text_of({{"score", score.token},
                           {"name", score.name},
                           {"title", outline.title.empty() ? score.name : outline.title},
                           {"parts", parts}})};
}

std::shared_ptr<const KeptScore> Service::kept_score(const std::string& token) {
  if (auto score = scores_.find(token)) return score;
  throw Gone("the score is no longer kept: send it again");
}

Answer Service::engraving(std::string_view body) {
  const EngravingAsk ask = parse_engraving_ask(body);
  Engraving engraving;
  if (ask.plan.empty()) {
    const auto score = kept_score(ask.passage.score);
    const auto ready = prepared(ask.passage, *score);
    engraving = engraved(score->file.text, ready->passage);
  } else {
    const auto plan = kept_plan(ask.plan);
    const KeptSide& side = kept_side(*plan, ask.side);
    std::vector<ScoreMark> marks;
    if (ask.marks) marks = marks_for(*side.played, plan->passage(), side.plan, *ask.marks);
    engraving = engraved(with_marks(plan->score->file.text, plan->passage().part_id, marks), plan->passage());
  }
  return {.body = text_of({{"musicxml", engraving.musicxml}, {"elements", engraving.elements}})};
}

Answer Service::file(const std::string& folder, std::string_view path) const {
  const Answer missing{
      .status = 404,
      .body =
          text_of({{"error", {{"messages", {"no such page: " + folder + "/" + std::string(path.substr(0, 100))}}}}})};
  const auto from = own_data_folder(folder);
  const auto below = plain_path(path);
  std::error_code error;
  if (!from || !below || !fs::is_regular_file(*from / *below, error)) return missing;
  std::ifstream stream(*from / *below, std::ios::binary);
  std::string content{std::istreambuf_iterator<char>(stream), {}};
  return {.type = media_type(*below), .body = std::move(content)};
}

Answer Service::lanes_style() {
  return {.type = "text/css; charset=utf-8", .body = std::string(fingerway::lanes_style())};
}

Answer Service::report_style() { return {.type = "text/css; charset=utf-8", .body = fingerway::report_style()}; }

}  // namespace fingerway
