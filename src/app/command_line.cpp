#include "command_line.hpp"

#include <CLI/CLI.hpp>
#include <exception>
#include <functional>
#include <map>
#include <new>
#include <ostream>

#include "app/build_info.hpp"
#include "commands.hpp"
#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

constexpr const char* footer =
    "Exit codes: 0 done; 1 done, but something has no fingering or does not fit; 2 bad input; 3 bad command line;\n"
    "4 cannot read or write. Repeated fast practice can injure: rest, and stop on pain or numbness.";

const std::map<std::string, Level> level_names = {
    {"professional", Level::professional}, {"amateur", Level::amateur}, {"beginner", Level::beginner}};

const std::map<std::string, Divisi> divisi_names = {
    {"top", Divisi::top}, {"bottom", Divisi::bottom}, {"refuse", Divisi::refuse}};

/// Adds the options that say which instrument is in whose hands.
void add_played(CLI::App& command, PlayedRequest& request) {
  command.add_option("-i,--instrument", request.instrument, "Instrument id or file; conversions stacked with +")
      ->required()
      ->type_name("INSTRUMENT");
  command.add_option("--level", request.level, "professional, amateur or beginner (default: amateur)")
      ->transform(CLI::CheckedTransformer(level_names, CLI::ignore_case).description(""))
      ->type_name("LEVEL");
  command.add_option("--latch", request.latches, "A latch set before playing; may be repeated")->type_name("ID");
}

/// Adds the options that say which line of the score, and how fast.
void add_passage(CLI::App& command, ScoreRequest& request) {
  command.add_option("--part", request.choice.part, "Part id or name (default: the one that fits the instrument)")
      ->type_name("PART");
  command.add_option("--voice", request.choice.voice, "Voice within the part")->type_name("VOICE");
  command.add_option("--staff", request.choice.staff, "Only this staff of the part, from 1")
      ->check(CLI::Range(1, 99).description(""))
      ->type_name("N");
  command
      .add_option("--divisi", request.choice.divisi, "Of a chord take the top or bottom note (default: refuse chords)")
      ->transform(CLI::CheckedTransformer(divisi_names).description(""))
      ->type_name("WHICH");
  command.add_flag_callback(
      "--concert", [&request] { request.choice.concert = ConcertPitch::concert; },
      "The score is at concert pitch, whatever it says");
  command.add_flag_callback(
      "--as-written", [&request] { request.choice.order = PlayOrder::as_written; },
      "Bars once each as they stand, without repeats and jumps");
  command.add_flag_callback(
      "--main-notes", [&request] { request.choice.ornaments = Ornaments::main_note; },
      "Leave ornaments out but for trills and tremolos");
  command.add_option("--bars", request.bars, "Only these bars, by printed number")->type_name("A-B");
  command.add_option("--tempo", request.tempo, "Quarter notes a minute at the start; later changes keep their ratio")
      ->check(CLI::Range(1.0, 1000.0).description(""))
      ->type_name("QPM");
}

void add_score(CLI::App& command, ScoreRequest& request) {
  command.add_option("score", request.file, "MusicXML file")->required()->type_name("SCORE");
  add_passage(command, request);
}

void add_json(CLI::App& command, std::string& file) {
  command.add_option("--json", file, "Write JSON here; - for standard output")->type_name("FILE");
}

/// The commands of the program and what was asked of them. Lives as long as the parse.
class CommandLine {
 public:
  CommandLine() : app_("Chooses woodwind fingerings for a passage on one particular instrument.", "fingerway") {
    app_.set_version_flag("--version", "fingerway " + std::string(program_version));
    app_.require_subcommand(1);
    app_.footer(footer);
    app_.failure_message(CLI::FailureMessage::simple);
    add_plan();
    add_compare();
    add_price();
    add_trills();
    add_chart();
    add_check();
  }

  /// Throws CLI::ParseError, and whatever the command throws.
  ExitCode run(int argc, const char* const* argv, const Console& console) {
    app_.parse(argc, argv);
    return action_(console);
  }

  int tell(const CLI::ParseError& error, const Console& console) {
    const bool asked_for = app_.exit(error, console.out, console.err) == 0;
    return static_cast<int>(asked_for ? ExitCode::done : ExitCode::bad_command_line);
  }

 private:
  template <class Command>
  CLI::App& add(const char* name, const char* what, const Command& command) {
    CLI::App& sub = *app_.add_subcommand(name, what);
    sub.callback([this, &command] {
      action_ = [&command](const Console& console) { return fingerway::run(command, console); };
    });
    return sub;
  }

  void add_plan() {
    CLI::App& sub = add("plan", "Best fingerings for a passage", plan_);
    add_score(sub, plan_.score);
    add_played(sub, plan_.played);
    sub.add_option("--choices", plan_.choices, "Your own pins, bans and holds")->type_name("FILE");
    sub.add_option("--alternatives", plan_.alternatives, "How many different plans to give (default: 1)")
        ->check(CLI::Range(1, 50).description(""))
        ->type_name("K");
    sub.add_flag("--parts", plan_.list_parts, "Only list the parts of the score, with note counts and range");
    sub.add_flag("--keep-marked", plan_.keep_marked, "Keep the fingerings that stand in the score");
    sub.add_flag("--unmark", plan_.unmark, "Only write the score without our marks, to --musicxml");
    sub.add_flag("--smoothest", plan_.smoothest, "Make the hardest moment as easy as can be, whatever the rest costs");
    sub.add_option("--explain", plan_.explain, "What each choice at this note would cost, and why")
        ->type_name("BAR:BEAT");
    sub.add_option_function<std::string>(
           "--mark", [this](const std::string& which) { plan_.mark_all = which == "all"; },
           "Which notes to mark in the score: choices (default) or all")
        ->check(CLI::IsMember({"choices", "all"}).description(""))
        ->type_name("WHICH");
    sub.add_option("--musicxml", plan_.musicxml, "Write the score with fingering marks here")->type_name("FILE");
    sub.add_option("--html", plan_.html, "Write a page with the finger lanes here")->type_name("FILE");
    sub.add_option("--csv", plan_.csv, "Write a table here, a row a note")->type_name("FILE");
    sub.add_option("--dump", plan_.graph, "Write the layered graph here, as JSON")->type_name("FILE");
    add_json(sub, plan_.json);
  }

  void add_compare() {
    CLI::App& sub = add("compare", "The same passages on two instruments", compare_);
    sub.add_option("scores", compare_.scores, "MusicXML files")->required()->type_name("SCORE");
    add_passage(sub, compare_.score);
    add_played(sub, compare_.played);
    sub.add_option("--with", compare_.with, "The converted instrument")->required()->type_name("INSTRUMENT");
    sub.add_option("--html", compare_.html, "Write a page with both instruments' finger lanes here")->type_name("FILE");
    add_json(sub, compare_.json);
  }

  void add_price() {
    CLI::App& sub = add("price", "What your own fingerings cost, beside the best", price_);
    add_score(sub, price_.score);
    add_played(sub, price_.played);
    sub.add_option("--choices", price_.choices, "Your own pins, bans and holds")->required()->type_name("FILE");
    add_json(sub, price_.json);
  }

  void add_trills() {
    CLI::App& sub = add("trills", "Every trill and two-note tremolo up to an octave", trills_);
    add_played(sub, trills_.played);
    sub.add_option("--between", trills_.between, "Only the one between these two notes")
        ->expected(2)
        ->type_name("NOTE");
    add_json(sub, trills_.json);
  }

  void add_chart() {
    CLI::App& sub = add("chart", "All fingerings of each note, from the table and derived", chart_);
    add_played(sub, chart_.played);
    sub.add_option("--against", chart_.against, "Only what the more converted of the two gains and loses")
        ->type_name("OTHER");
    add_json(sub, chart_.json);
  }

  void add_check() {
    CLI::App& sub = add("check", "Every fault of instrument, conversion, choices and motion files", check_);
    sub.add_option("files", check_.files, "YAML files")->required()->type_name("FILE");
    add_json(sub, check_.json);
  }

  CLI::App app_;
  std::function<ExitCode(const Console&)> action_;
  PlanCommand plan_;
  CompareCommand compare_;
  PriceCommand price_;
  TrillsCommand trills_;
  ChartCommand chart_;
  CheckCommand check_;
};

}  // namespace

int run_command_line(int argc, const char* const* argv, std::ostream& out, std::ostream& err) {
  const Console console{.out = out, .err = err};
  CommandLine line;
  try {
    return static_cast<int>(line.run(argc, argv, console));
  } catch (const CLI::ParseError& error) {
    return line.tell(error, console);
  } catch (const InputError& error) {
    err << error.what() << '\n';
    return static_cast<int>(ExitCode::bad_input);
  } catch (const FileError& error) {
    err << message(error.fault()) << '\n';
    return static_cast<int>(ExitCode::cannot_read_or_write);
  } catch (const std::bad_alloc&) {
    err << "not enough memory for this score (plan fewer bars with --bars)\n";
    return static_cast<int>(ExitCode::bad_input);
  } catch (const std::exception& error) {
    err << "a fault in fingerway itself: " << error.what() << " (please report it, with the files that led to it)\n";
    return static_cast<int>(ExitCode::bad_input);
  }
}

}  // namespace fingerway
