#include <algorithm>
#include <nlohmann/json.hpp>
#include <thread>

#include "app/assign_command.hpp"
#include "app/payoff_command.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/base/text.hpp"
#include "fingerway/report/assign.hpp"
#include "service.hpp"

namespace fingerway {
namespace {

using Value = nlohmann::ordered_json;

std::string text_of(const Value& json) { return json.dump(-1, ' ', false, Value::error_handler_t::replace); }

/// What stands in a file page between its head and its end; the served page gives it the same rules.
std::string body_of(const std::string& page) {
  constexpr std::string_view open = "<main>";
  const std::size_t start = page.find(open);
  const std::size_t end = page.rfind("</main>");
  return start == std::string::npos || end == std::string::npos
             ? std::string()
             : page.substr(start + open.size(), end - start - open.size());
}

/// One core is left to who looks at the page meanwhile.
unsigned spare_threads() { return std::max(2U, std::thread::hardware_concurrency()) - 1; }

std::string payoff_answer(const PayoffRequest& request, const ShareDone& done) {
  const PayoffTexts texts = payoff_texts(request, spare_threads(), done);
  return text_of({{"state", "done"}, {"payoff", Value::parse(texts.json)}, {"html", body_of(texts.html)}});
}

std::string class_answer(const Assignment& assignment) {
  return text_of({{"state", "done"},
                  {"assignment", Value::parse(assign_json(assignment))},
                  {"html", body_of(assign_page(assignment))}});
}

}  // namespace

void Service::start_background(const ServiceOptions& options) {
  if (!options.repertoire.empty()) {
    PayoffRequest request;
    request.repertoire = options.repertoire;
    request.played.instrument = options.instrument;
    request.conversions = options.conversions;
    repertoire_ =
        std::make_unique<Background>([request](const ShareDone& done) { return payoff_answer(request, done); });
  }
  if (options.roster.empty()) return;
  roster_ = std::make_unique<Background>([this, file = options.roster](const ShareDone& done) {
    auto worked = std::make_shared<const Assignment>(assignment_of(file, spare_threads(), done));
    std::string answer = class_answer(*worked);
    const std::scoped_lock lock(class_mutex_);
    class_ = std::move(worked);
    return answer;
  });
}

Answer Service::repertoire() const {
  return {.body = repertoire_ ? repertoire_->answer() : std::string(R"({"state":"none"})")};
}

Answer Service::roster() const { return {.body = roster_ ? roster_->answer() : std::string(R"({"state":"none"})")}; }

Answer Service::roster_sheet(std::string_view body) const {
  const std::string id = parse_one_text(body, "pupil");
  std::shared_ptr<const Assignment> worked;
  {
    const std::scoped_lock lock(class_mutex_);
    worked = class_;
  }
  if (!worked)
    throw InputError(Fault{{}, "the class is still being worked out, or there is none", "wait, or --roster"});
  const auto pupil = std::ranges::find(worked->pupils, id, &AssignedPupil::id);
  if (pupil == worked->pupils.end()) {
    std::vector<std::string> ids;
    for (const AssignedPupil& one : worked->pupils) ids.push_back(one.id);
    throw InputError(Fault{{.file = "request", .line = 0, .column = 0, .within = "pupil"},
                           "no pupil '" + id.substr(0, 60) + "'",
                           suggestion(id, ids)});
  }
  Value sheets = Value::array();
  for (const AssignedPassage& passage : pupil->passages) {
    sheets.push_back(
        {{"passage", passage.id}, {"title", passage.passage.title}, {"html", body_of(sheet_page(*pupil, passage))}});
  }
  return {.body = text_of({{"pupil", pupil->id}, {"name", pupil->name}, {"sheets", sheets}})};
}

}  // namespace fingerway
