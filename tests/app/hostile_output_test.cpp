// Outputs where something is in the way, or comes in between: whole files or none, the old file intact, and why.
#include <fcntl.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "app/files.hpp"
#include "app/program_run.hpp"
#include "fingerway/base/errors.hpp"
#include "support/scratch_folder.hpp"
#include "support/temporary_files.hpp"

namespace {

using namespace fingerway;
namespace fs = std::filesystem;

const std::string easy = "scores/first-steps.musicxml";

std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder)) names.push_back(entry.path().filename());
  std::ranges::sort(names);
  return names;
}

/// What writing one file says; "written" when nothing is in the way.
std::string writing(const std::string& path, const std::string& content) {
  Outputs outputs;
  outputs.add(path, content);
  std::ostringstream standard_output;
  try {
    outputs.write(standard_output);
  } catch (const FileError& error) {
    return error.fault().what;
  }
  return "written";
}

/// A process of its own that runs the program; 0 where there is no program to run (the tests are part of another).
pid_t start(const std::vector<std::string>& words) {
  const char* program = std::getenv("FINGERWAY_PROGRAM");
  if (program == nullptr) return 0;
  const pid_t child = ::fork();
  if (child != 0) return child;
  std::vector<char*> argv = {const_cast<char*>(program)};
  for (const std::string& word : words) argv.push_back(const_cast<char*>(word.c_str()));
  argv.push_back(nullptr);
  const int nowhere = ::open("/dev/null", O_WRONLY);
  ::dup2(nowhere, STDOUT_FILENO);
  ::dup2(nowhere, STDERR_FILENO);
  ::execv(program, argv.data());
  ::_exit(127);
}

int ended(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return status;
}

/// A file system of a few pages, there as long as this is; only the superuser may have one.
class SmallDisk {
 public:
  explicit SmallDisk(const fs::path& at) : at_(at) {
    fs::create_directories(at);
    mounted_ = ::mount("tmpfs", at.c_str(), "tmpfs", 0, "size=16k") == 0;
  }
  ~SmallDisk() {
    if (mounted_) ::umount(at_.c_str());
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  [[nodiscard]] bool mounted() const { return mounted_; }

 private:
  fs::path at_;
  bool mounted_ = false;
};

}  // namespace

TEST_CASE("a full disk is told, and leaves the old file and nothing else") {
  const ScratchFolder scratch;
  const SmallDisk disk(scratch.path() / "disk");
  if (!disk.mounted()) {
    WARN("not tried: a full disk (only the superuser can mount a small one)");
    return;
  }
  const fs::path file = scratch.write("disk/plan.json", "old");
  CHECK(writing(file.string(), std::string(100'000, 'x')) == "cannot be written: No space left on device");
  CHECK(text_of(file) == "old");
  CHECK(names_in(file.parent_path()) == std::vector<std::string>{"plan.json"});
  // The same through the program, where one of two outputs lies on the full disk.
  const std::string other = scratch.write("other.csv", "old").string();
  const Run full = run({"plan", easy, "-i", "bassoon", "--csv", other, "--json", file.string()});
  CHECK(full.code == 4);
  CHECK(full.err.find("plan.json: cannot be written: No space left") != std::string::npos);
  CHECK(text_of(file) == "old");
  CHECK(text_of(other) == "old");
  CHECK(writing(file.string(), "new") == "written");
  // A folder of sheets is written whole or not at all.
  const Run sheets =
      run({"assign", "scores/rosters/alder-street.yaml", "--out", (scratch.path() / "disk/sheets").string()});
  CHECK(sheets.code == 4);
  CHECK(sheets.err.find("No space left") != std::string::npos);
  CHECK(names_in(file.parent_path()) == std::vector<std::string>{"plan.json"});
  // Outcomes are laid aside in a temporary file.
  const TemporaryFilesIn full_disk(scratch.path() / "disk");
  const Run payoff = run({"payoff", "scores", "-i", "bassoon", "--conversions", "low-key-rollers,interlinked-low-keys",
                          "--samples", "0", "--csv", other});
  CHECK(payoff.code == 4);
  CHECK(payoff.err.find("a temporary file cannot be kept: No space left") != std::string::npos);
  CHECK(text_of(other) == "old");
}

TEST_CASE("a folder or file that is write-protected is left alone") {
  const ScratchFolder scratch;
  const fs::path file = scratch.write("kept/plan.json", "old");
  if (::geteuid() == 0) {
    // The superuser may write everywhere but where the file system itself is read-only.
    const SmallDisk disk(scratch.path() / "disk");
    if (!disk.mounted()) {
      WARN("not tried: a read-only folder (run as the superuser, without the right to mount)");
      return;
    }
    const fs::path kept = scratch.write("disk/plan.json", "old");
    REQUIRE(::mount(nullptr, kept.parent_path().c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0);
    CHECK(writing(kept.string(), "new") == "cannot be written: Read-only file system");
    CHECK(writing((kept.parent_path() / "new.json").string(), "new") == "cannot be written: Read-only file system");
    CHECK(text_of(kept) == "old");
    return;
  }
  fs::permissions(file, fs::perms::owner_read);
  CHECK(writing(file.string(), "new") == "cannot be written: Permission denied");
  fs::permissions(file.parent_path(), fs::perms::owner_read | fs::perms::owner_exec);
  CHECK(writing((file.parent_path() / "new.json").string(), "new") == "cannot be written: Permission denied");
  CHECK(text_of(file) == "old");
  fs::permissions(file.parent_path(), fs::perms::owner_all);
}

TEST_CASE("links that lead nowhere good are told") {
  const ScratchFolder scratch;
  const fs::path loop = scratch.path() / "loop";
  fs::create_symlink(loop, loop);
  CHECK(writing(loop.string(), "new").starts_with("cannot be written: "));
  const fs::path to_folder = scratch.path() / "to-folder";
  fs::create_directories(scratch.path() / "folder");
  fs::create_symlink(scratch.path() / "folder", to_folder);
  CHECK(writing(to_folder.string(), "new") == "is a folder");
  const fs::path dangling = scratch.path() / "dangling";
  fs::create_symlink(scratch.path() / "not-yet.json", dangling);
  CHECK(writing(dangling.string(), "new") == "written");
  CHECK(fs::is_symlink(dangling));
  CHECK(text_of(scratch.path() / "not-yet.json") == "new");
}

TEST_CASE("devices and pipes are written, never replaced") {
  // A terminal of our own: no fault here may do away with a device that others need.
  const int terminal = ::posix_openpt(O_RDWR | O_NOCTTY);
  REQUIRE(terminal >= 0);
  REQUIRE(::grantpt(terminal) == 0);
  REQUIRE(::unlockpt(terminal) == 0);
  const std::string device = ::ptsname(terminal);
  REQUIRE(fs::is_character_file(device));
  CHECK(writing(device, "shown") == "written");
  CHECK(fs::is_character_file(device));
  std::array<char, 16> shown{};
  CHECK(std::string(shown.data(), static_cast<std::size_t>(::read(terminal, shown.data(), shown.size()))) == "shown");
  ::close(terminal);
  const ScratchFolder scratch;
  const fs::path pipe = scratch.path() / "pipe";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  std::string got;
  std::jthread reader([&] { got = text_of(pipe); });
  CHECK(writing(pipe.string(), "through the pipe") == "written");
  reader.join();
  CHECK(got == "through the pipe");
  CHECK(fs::is_fifo(pipe));
}

TEST_CASE("a file that is replaced keeps its permissions") {
  const ScratchFolder scratch;
  const fs::path file = scratch.write("plan.json", "old");
  fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read);
  CHECK(writing(file.string(), "new") == "written");
  CHECK(fs::status(file).permissions() == (fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read));
}

TEST_CASE("one file for two outputs is refused before anything is written") {
  const ScratchFolder scratch;
  const std::string file = (scratch.path() / "both").string();
  const Run twice = run({"plan", easy, "-i", "bassoon", "--json", file, "--csv", file});
  CHECK(twice.code == 4);
  CHECK(twice.err.find("both: is named for two outputs (give each a file of its own)") != std::string::npos);
  CHECK(names_in(scratch.path()).empty());
  CHECK(run({"plan", easy, "-i", "bassoon", "--json", "-", "--csv", "-"}).code == 4);
}

TEST_CASE("a program killed at any moment leaves the old file or the new one, whole, and nothing beside it") {
  const ScratchFolder scratch;
  const fs::path file = scratch.write("plan.json", "old");
  const std::vector<std::string> words = {"plan", easy, "-i", "bassoon", "--json", file.string()};
  const pid_t first = start(words);
  if (first == 0) {
    WARN("not tried: killing the program (FINGERWAY_PROGRAM names none)");
    return;
  }
  const auto before = std::chrono::steady_clock::now();
  REQUIRE(WEXITSTATUS(ended(first)) == 0);
  const auto whole_run = std::chrono::steady_clock::now() - before;
  const std::string done = text_of(file);
  REQUIRE(nlohmann::json::accept(done));
  constexpr int tries = 24;
  int killed = 0;
  for (int i = 1; i <= tries; ++i) {
    scratch.write("plan.json", "old");
    const pid_t child = start(words);
    std::this_thread::sleep_for(whole_run * i / tries);
    ::kill(child, SIGKILL);
    killed += WIFSIGNALED(ended(child)) ? 1 : 0;
    const std::string left = text_of(file);
    CHECK((left == "old" || left == done));
    // Only between giving the name and putting in place could there be a second name, and then of the whole file.
    for (const std::string& name : names_in(scratch.path())) {
      if (name != "plan.json") CHECK(text_of(scratch.path() / name) == done);
    }
  }
  CHECK(killed > 0);
}

TEST_CASE("two runs that write one file leave the whole of one of them") {
  const ScratchFolder scratch;
  const std::string file = (scratch.path() / "plan.json").string();
  const std::string one(200'000, '1');
  const std::string two(300'000, '2');
  std::vector<std::jthread> writers;
  for (const std::string& content : {one, two}) {
    writers.emplace_back([&file, content] {
      for (int i = 0; i < 20; ++i) {
        if (writing(file, content) != "written") std::abort();
      }
    });
  }
  writers.clear();
  const std::string left = text_of(file);
  CHECK((left == one || left == two));
  CHECK(names_in(scratch.path()) == std::vector<std::string>{"plan.json"});

  const pid_t a = start({"plan", easy, "-i", "bassoon", "--json", file});
  const pid_t b = start({"plan", easy, "-i", "bassoon", "--json", file});
  if (a == 0 || b == 0) return;
  CHECK(WEXITSTATUS(ended(a)) == 0);
  CHECK(WEXITSTATUS(ended(b)) == 0);
  CHECK(nlohmann::json::accept(text_of(file)));
  CHECK(names_in(scratch.path()) == std::vector<std::string>{"plan.json"});
}

TEST_CASE("files from the future and a clock set back change nothing") {
  const ScratchFolder scratch;
  const fs::path score = scratch.write("score.musicxml", text_of(easy));
  const std::string work = (scratch.path() / "done.work").string();
  const std::vector<std::string> words = {
      "payoff", score.string(), "-i",     "bassoon", "--conversions", "low-key-rollers", "--samples", "0",
      "--work", work,           "--json", "-"};
  const Run now = run(words);
  REQUIRE(now.code == 0);
  const auto years = std::chrono::hours(24 * 365 * 30);
  const auto moment = fs::last_write_time(score);
  fs::last_write_time(score, moment + years);
  fs::last_write_time(work, moment - years);
  const Run later = run(words);
  CHECK(later.code == 0);
  CHECK(later.out == now.out);
}
