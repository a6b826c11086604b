#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/report/choice_marks.hpp"
#include "report/toy_report.hpp"

using namespace fingerway;

namespace {

/// One note of a made-up plan: a table line's fingering with touches added, of which some are spare.
struct Moment {
  std::size_t line = 0;
  TouchSet added = {};
  TouchSet spare = {};
  TouchSet left_out = {};
  std::uint32_t measure = 0;
};

std::vector<std::string> marks_of(const Played& toy, const std::vector<Moment>& steps, MarkWhich which) {
  Passage passage;
  Plan plan;
  for (const Moment& step : steps) {
    const TableFingering& line = toy.instrument.table[step.line];
    NoteEvent note;
    note.pitch = line.pitch;
    note.place.measure = step.measure;
    note.place.element = static_cast<std::uint32_t>(passage.notes.size());
    passage.notes.push_back(note);
    Candidate candidate;
    candidate.line = static_cast<std::uint16_t>(step.line);
    candidate.fingering = line.fingering;
    candidate.fingering.pressed = (line.fingering.pressed | step.added) - step.left_out;
    candidate.spare = step.spare;
    candidate.origin = candidate.fingering == line.fingering ? Origin::table : Origin::derived;
    PlannedNote planned;
    planned.candidate = candidate;
    plan.notes.push_back(planned);
  }
  std::vector<std::string> texts(steps.size());
  for (const ScoreMark& mark : marks_for(toy, passage, plan, which)) texts.at(mark.element) = mark.text;
  return texts;
}

constexpr std::size_t open_line = 0;
constexpr std::size_t one_line_of_toy = 1;
constexpr std::size_t three_line = 3;

}  // namespace

TEST_CASE("a touch kept down is said where that begins, and again only after it was let go") {
  const Played toy = toy_played(toy_instrument());
  const TouchSet third = {toy_three};
  const std::vector<Moment> steps = {{three_line},
                                     {one_line_of_toy, third, third},
                                     {open_line, third, third},
                                     {one_line_of_toy},
                                     {one_line_of_toy, third, third}};
  CHECK(marks_of(toy, steps, MarkWhich::choices) == std::vector<std::string>{"", "hold L2 one", "", "", "+L2 one"});
  CHECK(marks_of(toy, steps, MarkWhich::all) ==
        std::vector<std::string>{"three", "one hold L2 one", "open", "one", "one +L2 one"});
}

TEST_CASE("a key whose name no other finger has is named without its finger") {
  const Played toy = toy_played(toy_instrument());
  const TouchSet second = {toy_two};
  CHECK(marks_of(toy, {{open_line, second, second}}, MarkWhich::choices) == std::vector<std::string>{"+two"});
}

TEST_CASE("many touches kept down at once are not listed") {
  const Played toy = toy_played(toy_instrument());
  const TouchSet all = {toy_one, toy_two, toy_three};
  CHECK(marks_of(toy, {{three_line}, {open_line, all, all}}, MarkWhich::choices) ==
        std::vector<std::string>{"", "hold"});
}

TEST_CASE("touches the note needs, or does without, belong to its mark, once a measure") {
  const Played toy = toy_played(toy_instrument());
  const Moment needed = {one_line_of_toy, {toy_three}, {}, {}, 0};
  const Moment without = {three_line, {}, {}, {toy_one}, 0};
  CHECK(marks_of(toy, {needed, needed, without, needed}, MarkWhich::choices) ==
        std::vector<std::string>{"one +L2 one", "", "three -L1 one", ""});
  Moment later = needed;
  later.measure = 1;
  CHECK(marks_of(toy, {needed, later}, MarkWhich::choices) == std::vector<std::string>{"one +L2 one", "one +L2 one"});
}

TEST_CASE("each mark has the full fingering, a note without one says so") {
  const Played toy = toy_played(toy_instrument());
  Passage passage;
  passage.notes.resize(2);
  passage.notes[0].pitch = WrittenPitch(57);
  passage.notes[1].place.element = 1;
  Plan plan;
  plan.notes.resize(2);
  Candidate candidate;
  candidate.line = three_line;
  candidate.fingering = toy.instrument.table[three_line].fingering;
  candidate.fingering.half = {toy_one};
  plan.notes[0].candidate = candidate;
  const std::vector<ScoreMark> marks = marks_for(toy, passage, plan, MarkWhich::all);
  REQUIRE(marks.size() == 2);
  CHECK(marks[0].full == "press L1.two L2.one half L1.one");
  CHECK(marks[1].text == "no fingering");
  CHECK(marks[1].full.empty());
}
