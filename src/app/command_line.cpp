#include "command_line.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <functional>
#include <map>
#include <new>
#include <ostream>

#include "app/build_info.hpp"
#include "assign_command.hpp"
#include "commands.hpp"
#include "drill_command.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/base/text.hpp"
#include "help_texts.hpp"
#include "payoff_command.hpp"
#include "reference_command.hpp"
#include "serve/serve_command.hpp"

namespace fingerway {
namespace {

const std::map<std::string, Level> level_names = {
    {"professional", Level::professional}, {"amateur", Level::amateur}, {"beginner", Level::beginner}};
const std::map<std::string, Divisi> divisi_names = {
    {"top", Divisi::top}, {"bottom", Divisi::bottom}, {"refuse", Divisi::refuse}};

const std::map<std::string, bool> mark_all_names = {{"choices", false}, {"all", true}};

/// An option that takes one of some words, told with the nearest of them when it is none.
template <class Value>
CLI::Option* add_word(CLI::App& command, const std::string& names, Value& value,
                      const std::map<std::string, Value>& words, const std::string& what) {
  const auto known = [&words](const std::string& word) {
    if (words.contains(word)) return std::string();
    std::vector<std::string> all;
    for (const auto& [each, unused] : words) all.push_back(each);
    return message(Fault{{}, "there is no '" + word + "'", suggestion(word, all)});
  };
  const auto set = [&value, &words](const std::string& word) { value = words.at(word); };
  return command.add_option_function<std::string>(names, set, what)->check(CLI::Validator(known, ""));
}

/// A number within bounds, told as a person would.
CLI::Validator number_within(double least, double most) {
  const auto check = [least, most](const std::string& text) {
    double value = 0.0;
    if (CLI::detail::lexical_cast(text, value) && least <= value && value <= most) return std::string();
    return message(Fault{{}, fmt::format("'{}' is not a number from {} to {}", text, least, most), {}});
  };
  return CLI::Validator(check, "");
}

/// The command that was given, as far as it is known: "fingerway payoff merge".
const CLI::App& deepest(const CLI::App& app) {
  const CLI::App* command = &app;
  while (!command->get_subcommands().empty()) command = command->get_subcommands().front();
  return *command;
}

/// A word that was not expected, with what was probably meant; empty where that is not what is wrong.
std::string unexpected_word(const CLI::App& app) {
  const std::vector<std::string> rest = app.remaining(true);
  if (rest.empty()) return {};
  const CLI::App& command = deepest(app);
  const auto option = std::ranges::find_if(rest, [](const std::string& word) { return word.starts_with("-"); });
  std::vector<std::string> known;
  if (option != rest.end()) {
    for (const CLI::Option* each : command.get_options()) {
      for (const std::string& name : each->get_lnames()) known.push_back("--" + name);
    }
    const std::string near = nearest_word(*option, known);
    return message(
        Fault{{}, "there is no option '" + *option + "'", near.empty() ? "" : "did you mean '" + near + "'?"});
  }
  if (&command != &app) return message(Fault{{}, "'" + rest.front() + "' is one word too many", {}});
  for (const CLI::App* each : app.get_subcommands([](const CLI::App*) { return true; })) {
    known.push_back(each->get_name());
  }
  return message(Fault{{}, "there is no command '" + rest.front() + "'", suggestion(rest.front(), known)});
}

/// Adds the options that say which instrument is in whose hands.
void add_played(CLI::App& command, PlayedRequest& request) {
  command.add_option("-i,--instrument", request.instrument, "Instrument id or file; conversions stacked with +")
      ->required()
      ->type_name("INSTRUMENT");
  add_word(command, "--level", request.level, level_names, "Of the hand (default: amateur)")
      ->type_name("professional|amateur|beginner");
  command.add_option("--player", request.player, "Player file: measured hand, limits, what is learned, habits")
      ->excludes("--level")
      ->type_name("FILE");
  command.add_option("--latch", request.latches, "A latch set before playing; may be repeated")->type_name("ID");
}

/// Adds the options that say which line of the score, and how fast.
void add_passage(CLI::App& command, ScoreRequest& request) {
  command.add_option("--part", request.choice.part, "Part id or name (default: the one that fits the instrument)")
      ->type_name("PART");
  command.add_option("--voice", request.choice.voice, "Voice within the part")->type_name("VOICE");
  command.add_option("--staff", request.choice.staff, "Only this staff of the part, from 1")
      ->check(number_within(1, 99))
      ->type_name("N");
  add_word(command, "--divisi", request.choice.divisi, divisi_names,
           "Which note of a chord to take (default: refuse chords)")
      ->type_name("top|bottom|refuse");
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
      ->check(number_within(1.0, 1000.0))
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
    app_.set_version_flag("--version", std::string(version_words));
    app_.require_subcommand(1);
    app_.footer(std::string(help_of_commands));  // its commands take it over
    app_.failure_message(CLI::FailureMessage::simple);
    add_plan();
    add_compare();
    add_price();
    add_trills();
    add_chart();
    add_assign();
    add_drill();
    add_check();
    add_payoff();
    add_serve();
    add_reference();
    app_.footer(std::string(help_of_program) + std::string(help_of_commands));
  }

  /// Throws CLI::ParseError, and whatever the command throws.
  ExitCode run(int argc, const char* const* argv, const Console& console) {
    app_.parse(argc, argv);
    return action_(console);
  }

  int tell(const CLI::ParseError& error, const Console& console) {
    const std::string unexpected = error.get_exit_code() == 0 ? std::string() : unexpected_word(app_);
    if (!unexpected.empty()) {
      console.err << unexpected << "\nRun with --help for more information.\n";
      return static_cast<int>(ExitCode::bad_command_line);
    }
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
        ->check(number_within(1, 50))
        ->type_name("K");
    sub.add_flag("--parts", plan_.list_parts, "Only list the parts of the score, with note counts and range");
    sub.add_flag("--keep-marked", plan_.keep_marked, "Keep the fingerings that stand in the score");
    sub.add_flag("--unmark", plan_.unmark, "Only write the score without our marks, to --musicxml");
    sub.add_option("--habits", plan_.habits,
                   "Your own instrument, where the one named with -i is borrowed: which habits fail, what to use")
        ->excludes("--choices")
        ->type_name("INSTRUMENT");
    sub.add_flag("--smoothest", plan_.smoothest, "Make the hardest moment as easy as can be, whatever the rest costs");
    sub.add_option("--explain", plan_.explain, "What each choice at this note would cost, and why")
        ->type_name("BAR:BEAT");
    add_word(sub, "--mark", plan_.mark_all, mark_all_names, "Which notes to mark in the score (default: choices)")
        ->type_name("choices|all");
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
    sub.add_option("--against", trills_.against, "What the more converted of the two changes")->type_name("OTHER");
    sub.add_option("--csv", trills_.csv, "Write a table here, a row a pair")->type_name("FILE");
    add_json(sub, trills_.json);
  }

  void add_chart() {
    CLI::App& sub = add("chart", "All fingerings of each note, from the table and derived", chart_);
    add_played(sub, chart_.played);
    sub.add_option("--against", chart_.against, "Only what the more converted of the two gains and loses")
        ->type_name("OTHER");
    add_json(sub, chart_.json);
  }

  void add_assign() {
    CLI::App& sub = add("assign", "A sheet for every pupil of a roster, and a summary for the teacher", assign_);
    sub.add_option("roster", assign_.roster, "Roster file")->required()->type_name("ROSTER");
    sub.add_option("-o,--out", assign_.out, "Write the sheets into this new folder")->type_name("FOLDER");
    sub.add_option("--threads", assign_.threads, "How many at a time (default: one a core)")
        ->check(number_within(1, 256))
        ->type_name("N");
    add_json(sub, assign_.json);
  }

  void add_drill() {
    CLI::App& sub = add("drill", "Practice material for the changes that decide the tempo", drill_);
    add_score(sub, drill_.score);
    add_played(sub, drill_.played);
    sub.add_option("--choices", drill_.choices, "Your own pins, bans and holds")->type_name("FILE");
    sub.add_option("--hardest", drill_.hardest, "For how many changes (default: 3)")
        ->check(number_within(1, 20))
        ->type_name("N");
    sub.add_option("-o,--musicxml", drill_.musicxml, "Write the exercises here")->type_name("FILE");
    add_json(sub, drill_.json);
  }

  void add_check() {
    CLI::App& sub = add(
        "check", "Every fault of instrument, conversion, player, roster, repertoire, choices and motion files", check_);
    sub.add_option("files", check_.files, "YAML files")->required()->type_name("FILE");
    add_json(sub, check_.json);
  }

  static void add_outputs(CLI::App& command, PayoffOutputs& outputs) {
    command.add_option("--html", outputs.html, "Write a page with plots here")->type_name("FILE");
    command.add_option("--csv", outputs.csv, "Write a table here, a row a set and passage")->type_name("FILE");
    add_json(command, outputs.json);
  }

  static CLI::Option* add_budget(CLI::App& command, std::optional<double>& budget) {
    return command.add_option("--budget", budget, "What the best set may cost at most, in the conversions' currency")
        ->check(number_within(0.0, 1e9))
        ->type_name("MONEY");
  }

  void add_payoff() {
    CLI::App& sub = *app_.add_subcommand("payoff", "What conversions do for a repertoire, and which are worth it");
    PayoffRequest& request = payoff_.request;
    sub.add_option("repertoire", request.repertoire, "Folder of scores, list (YAML) or score")->type_name("REPERTOIRE");
    add_played(sub, request.played);
    CLI::Option* instrument = sub.get_option("--instrument")->required(false);
    instrument->description("Instrument id or file; conversions stacked with + (needed, but for payoff merge)");
    sub.add_option("--conversions", request.conversions, "Ids or files, with commas (default: all that fit)")
        ->delimiter(',')
        ->type_name("A,B");
    add_budget(sub, request.budget);
    sub.add_option("--samples", request.samples,
                   "How many other hands, levels, tempos, places of keys and constants to try (default: 4)")
        ->check(number_within(0, static_cast<double>(most_samples)))
        ->type_name("N");
    sub.add_option("--threads", payoff_.threads, "How many threads (default: one a core)")
        ->check(number_within(1, 1024))
        ->type_name("N");
    sub.add_option("--work", payoff_.work, "Keep what is done here, and go on from there")->type_name("FILE");
    sub.add_option("--shard", payoff_.shard, "Only the K-th of N parts of the work, into --work")->type_name("K/N");
    sub.add_flag("--search", payoff_.search, "Search for changes of the keywork that would help most");
    add_outputs(sub, payoff_.outputs);

    CLI::App& merge = *sub.add_subcommand("merge", "Put the work of all shards together");
    merge.add_option("files", payoff_merge_.files, "Work files")->required()->type_name("FILE");
    add_budget(merge, payoff_merge_.budget);
    add_outputs(merge, payoff_merge_.outputs);
    sub.callback([this, &sub, &merge] {
      if (merge.parsed()) {
        action_ = [this](const Console& console) { return fingerway::run(payoff_merge_, console); };
        return;
      }
      if (payoff_.request.repertoire.empty()) throw CLI::RequiredError("repertoire");
      if (sub.count("--instrument") == 0) throw CLI::RequiredError("--instrument");
      action_ = [this](const Console& console) { return fingerway::run(payoff_, console); };
    });
  }

  void add_serve() {
    CLI::App& sub = add("serve", "The page on this machine: look, choose, compare, print", serve_);
    sub.add_option("score", serve_.score, "A score to begin with")->type_name("SCORE");
    sub.add_flag("--open", serve_.open, "Show the page in the browser");
    CLI::Option* port =
        sub.add_option("--port", serve_.http.port, "Where the page is (default: 8642); 0 for any free port")
            ->check(CLI::Range(0, 65535).description(""))
            ->type_name("PORT");
    sub.parse_complete_callback([this, port] { serve_.port_asked = port->count() > 0; });
    sub.add_option("--repertoire", serve_.service.repertoire, "Work out the payoff of this folder, list or score")
        ->type_name("REPERTOIRE");
    sub.add_option("-i,--instrument", serve_.service.instrument, "The instrument of the repertoire")
        ->type_name("INSTRUMENT");
    sub.add_option("--conversions", serve_.service.conversions, "Of the repertoire's payoff (default: all that fit)")
        ->delimiter(',')
        ->type_name("A,B");
    sub.add_option("--roster", serve_.service.roster, "Show this class")->type_name("ROSTER");
    sub.add_option("--allow-host", serve_.http.allow_host,
                   "Answer other machines too, by this name or address of this one (default: this machine only)")
        ->type_name("HOST");
  }

  /// For builds and shells, not for people: not in --help.
  void add_reference() {
    CLI::App& sub = *app_.add_subcommand("reference", "Man page, completions, ids of instruments")->group("");
    sub.add_option("what", reference_.what)
        ->required()
        ->check(CLI::IsMember({"man", "bash", "zsh", "fish", "instruments"}));
    sub.add_option("typed", reference_.typed);
    sub.callback(
        [this] { action_ = [this](const Console& console) { return fingerway::run(reference_, app_, console); }; });
  }

  CLI::App app_;
  std::function<ExitCode(const Console&)> action_;
  PlanCommand plan_;
  CompareCommand compare_;
  PriceCommand price_;
  TrillsCommand trills_;
  ChartCommand chart_;
  AssignCommand assign_;
  DrillCommand drill_;
  CheckCommand check_;
  PayoffCommand payoff_;
  PayoffMergeCommand payoff_merge_;
  ServeCommand serve_;
  ReferenceCommand reference_;
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
