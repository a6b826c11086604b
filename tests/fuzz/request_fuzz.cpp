// What this part answers: does the page's server, asked without HTTP, bear any body of any of its requests? The first
// byte chooses the request, the rest is its body. "$score" and "$plan" in it stand for a score and a plan that are
// kept, so that what lies behind the tokens is reached too.
#include <array>
#include <nlohmann/json.hpp>

#include "app/serve/service.hpp"
#include "fuzz.hpp"

namespace {

using namespace fingerway;

/// A service with little room, so that what is dropped and asked for again comes up too.
class Asked {
 public:
  Asked() : service_({}, limits()) { bring(); }

  Answer answer(std::uint8_t which, std::string body) {
    put_in(body, "$score", score_);
    put_in(body, "$plan", plan_);
    constexpr std::array methods = {&Service::plan,   &Service::engraving,    &Service::lanes, &Service::note,
                                    &Service::trill,  &Service::read_choices, &Service::save,  &Service::bring_demo,
                                    &Service::trills, &Service::score_again};
    const std::size_t number = which % (methods.size() + 2);
    if (number == methods.size()) return service_.roster_sheet(body);
    if (number == methods.size() + 1) return service_.bring_score(body.substr(0, 40), body);
    return (service_.*methods[number])(body);
  }

  /// The score and the plan again, where they were dropped for others.
  void bring() {
    score_ = nlohmann::json::parse(service_.bring_demo(R"({"demo":"first-steps"})").body).at("score");
    const nlohmann::json request = {{"score", score_}, {"instrument", "treble-recorder"}, {"bars", "1-2"}};
    plan_ = nlohmann::json::parse(service_.plan(request.dump()).body).at("plan");
  }

 private:
  static ServiceLimits limits() {
    ServiceLimits limits;
    limits.kept_score_bytes = std::size_t{2} << 20U;
    limits.kept_plan_bytes = std::size_t{64} << 20U;
    limits.notes = 40;
    limits.lanes_notes = 200;
    return limits;
  }
  static void put_in(std::string& text, std::string_view name, const std::string& value) {
    for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at + value.size())) {
      text.replace(at, name.size(), value);
    }
  }

  Service service_;
  std::string score_;
  std::string plan_;
};

Asked& asked() {
  static Asked one;
  return one;
}

}  // namespace

/// Reading all instruments takes its time, which is no input's fault.
extern "C" int LLVMFuzzerInitialize(int* /*argc*/, char*** /*argv*/) {
  static_cast<void>(asked());
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  fuzz::reads([&] {
    try {
      const Answer answer = asked().answer(data[0], std::string(fuzz::text_of(data + 1, size - 1)));
      fuzz::require(answer.status == 200, "an answer that is no success, without a message", answer.body);
      if (answer.type == "application/json") {
        fuzz::require(nlohmann::json::accept(answer.body), "an answer that is not JSON", answer.body);
      }
    } catch (const Gone& gone) {
      fuzz::require(fuzz::is_one_line(gone.what()), "a message that is no line of text", gone.what());
      asked().bring();
    }
  });
  return 0;
}
