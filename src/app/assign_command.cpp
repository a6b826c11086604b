#include "assign_command.hpp"

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>
#include <utility>

#include "data_folders.hpp"
#include "delivery.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/read/roster_file.hpp"
#include "fingerway/read/score_bytes.hpp"
#include "fingerway/report/assign.hpp"
#include "fingerway/report/choice_marks.hpp"
#include "folder.hpp"
#include "workers.hpp"

namespace fingerway {
namespace {

constexpr const char* json_file = "assign.json";

/// One sheet: a pupil and a passage of the roster.
struct Job {
  std::size_t pupil = 0;
  std::size_t passage = 0;
};

/// Faults of many sheets, told together and in the roster's order whatever the threads do.
class JobFaults {
 public:
  explicit JobFaults(std::size_t jobs) : of_job_(jobs) {}

  template <class Work>
  void during(std::size_t job, const std::string& pupil, const Work& work) {
    try {
      work();
    } catch (const InputError& error) {
      for (Fault fault : error.faults()) {
        fault.what += " (for " + pupil + ")";
        of_job_[job].push_back(std::move(fault));
      }
    }
  }

  void throw_if_any() const {
    std::vector<Fault> all;
    for (const auto& faults : of_job_) all.insert(all.end(), faults.begin(), faults.end());
    if (!all.empty()) throw InputError(all);
  }

 private:
  std::vector<std::vector<Fault>> of_job_;
};

AssignedPupil load_pupil(const RosterPupil& pupil, const MotionNumbers& numbers) {
  Instrument instrument = pupil.instrument;
  engage(instrument, pupil.latches, pupil.place);
  AssignedPupil result{.id = pupil.id,
                       .name = pupil.name,
                       .played = played(std::move(instrument), numbers, pupil.player),
                       .passages = {}};
  // A pupil described in the roster itself is described for the instrument that stands there.
  if (pupil.player.file == pupil.place.file) require_sounding(result.played);
  return result;
}

Passage load_roster_passage(const RosterPassage& wanted, const Instrument& instrument) {
  ScoreRequest request;
  request.file = wanted.score;
  request.choice.part = wanted.part;
  request.choice.voice = wanted.voice;
  request.bars = wanted.bars;
  request.tempo = wanted.tempo;
  Passage passage = load_passage(request, instrument);
  note_transposition(passage, instrument);
  return passage;
}

std::vector<std::string> sheet_files(const std::string& pupil, const std::string& passage, const ScoreFile& score) {
  const std::string stem = pupil + "/" + passage;
  return {stem + ".html", stem + ".txt", stem + (score.container ? ".mxl" : ".musicxml")};
}

/// The files an assign.json names. Throws nlohmann's exceptions where it is not one of ours.
std::vector<std::string> files_named_in(const nlohmann::json& json) {
  std::vector<std::string> files;
  if (json.at("format").get<std::string>() != "fingerway/assign") return files;
  files = {json_file, "index.html", "summary.txt"};
  for (const auto& pupil : json.at("pupils")) {
    for (const auto& passage : pupil.at("passages")) {
      for (const auto& path : passage.at("files")) files.push_back(path.get<std::string>());
    }
  }
  return files;
}

/// What an earlier run left in the folder, by its own word; nothing where there was none.
std::vector<std::string> files_of_earlier_run(const std::filesystem::path& folder) {
  std::error_code error;
  const std::filesystem::path file = folder / json_file;
  if (!std::filesystem::is_regular_file(file, error)) return {};
  try {
    return files_named_in(nlohmann::json::parse(load_score(file).text));
  } catch (const nlohmann::json::exception&) {
    return {};
  }
}

/// All sheets of a roster being worked out.
class AssignRun {
 public:
  AssignRun(const AssignCommand& command, const Console& console)
      : command_(command),
        console_(console),
        folders_(data_folders()),
        numbers_(read_motion_numbers(motion_file(folders_))),
        roster_(read_roster(command.roster, folders_)) {
    assignment_.title = roster_.title;
    assignment_.file = roster_.file;
    for (std::size_t p = 0; p < roster_.pupils.size(); ++p) {
      assignment_.pupils.push_back(load_pupil(roster_.pupils[p], numbers_));
      assignment_.pupils.back().passages.resize(roster_.pupils[p].passages.size());
      for (std::size_t i = 0; i < roster_.pupils[p].passages.size(); ++i) jobs_.push_back({.pupil = p, .passage = i});
    }
    sheets_.resize(jobs_.size());
  }

  ExitCode run() {
    const bool writes = !command_.out.empty();
    if (writes) require_writable_folder(command_.out, files_of_earlier_run(command_.out));
    Progress progress(console_.err, "sheets", jobs_.size());
    work_out([&] { progress.add(1); });
    Outputs outputs;
    outputs.add(command_.json, assign_json(assignment_));
    if (writes) write_folder(command_.out, all_files());
    deliver(outputs, assign_text(assignment_) + (writes ? "wrote " + command_.out + "\n" : ""), console_);
    return code();
  }

  /// The class alone, with no file written.
  Assignment worked_out(const std::function<void(double)>& done) {
    std::atomic<std::size_t> made = 0;
    work_out([&] { done(static_cast<double>(++made) / static_cast<double>(jobs_.size())); });
    return std::move(assignment_);
  }

 private:
  void work_out(const std::function<void()>& one_done) {
    JobFaults faults(jobs_.size());
    run_on_threads(jobs_.size(), thread_count(command_.threads), [&](std::size_t j) {
      faults.during(j, roster_.pupils[jobs_[j].pupil].name, [&] { work_out(j); });
      one_done();
    });
    faults.throw_if_any();
  }

  void work_out(std::size_t j) {
    const Job& job = jobs_[j];
    AssignedPupil& pupil = assignment_.pupils[job.pupil];
    const RosterPassage& wanted = roster_.passages[roster_.pupils[job.pupil].passages[job.passage]];
    AssignedPassage& assigned = pupil.passages[job.passage];
    assigned.id = wanted.id;
    assigned.bars = wanted.bars;
    assigned.passage = load_roster_passage(wanted, pupil.played.instrument);
    assigned.lesson = lesson(pupil.played, numbers_, assigned.passage);
    if (command_.out.empty()) return;
    const ScoreFile score = load_score(wanted.score);
    assigned.files = sheet_files(pupil.id, wanted.id, score);
    const auto marks = marks_for(pupil.played, assigned.passage, assigned.lesson.plan, MarkWhich::choices);
    sheets_[j] = {{assigned.files[0], sheet_page(pupil, assigned)},
                  {assigned.files[1], sheet_text(pupil, assigned)},
                  {assigned.files[2], score_bytes(score, with_marks(score.text, assigned.passage.part_id, marks))}};
  }

  [[nodiscard]] std::vector<FolderFile> all_files() const {
    std::vector<FolderFile> files = {{"index.html", assign_page(assignment_)},
                                     {"summary.txt", assign_text(assignment_)},
                                     {json_file, assign_json(assignment_)}};
    for (const auto& sheet : sheets_) files.insert(files.end(), sheet.begin(), sheet.end());
    return files;
  }

  [[nodiscard]] ExitCode code() const {
    ExitCode code = ExitCode::done;
    for (const AssignedPupil& pupil : assignment_.pupils) {
      for (const AssignedPassage& assigned : pupil.passages) {
        code = std::max(code, code_for(assigned.lesson.plan.summary));
      }
    }
    return code;
  }

  const AssignCommand& command_;
  const Console& console_;
  InstrumentFolders folders_;
  MotionNumbers numbers_;
  Roster roster_;
  Assignment assignment_;
  std::vector<Job> jobs_;
  std::vector<std::vector<FolderFile>> sheets_;
};

}  // namespace

ExitCode run(const AssignCommand& command, const Console& console) { return AssignRun(command, console).run(); }

Assignment assignment_of(const std::string& roster, unsigned threads, const std::function<void(double)>& done) {
  AssignCommand command;
  command.roster = roster;
  command.threads = threads;
  std::ostringstream unheard;
  const Console console{.out = unheard, .err = unheard};
  return AssignRun(command, console).worked_out(done);
}

}  // namespace fingerway
