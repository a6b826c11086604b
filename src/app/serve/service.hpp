// What this part answers: every request of the page, from its body to an answer. It knows no HTTP (http_server.hpp) and
// writes no files; what is brought is kept in memory only, and dropped again.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "app/data_folders.hpp"
#include "asks.hpp"
#include "background.hpp"
#include "catalogue.hpp"
#include "fingerway/report/assign.hpp"
#include "kept.hpp"
#include "store.hpp"
#include "turn.hpp"

namespace fingerway {

/// What a request is answered with.
struct Answer {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::string file_name = {};  ///< of a file to be saved; empty: none
};

/// What the server is started with.
struct ServiceOptions {
  std::string repertoire;                ///< folder, list or score; empty: none
  std::string instrument;                ///< the stock instrument of the repertoire
  std::vector<std::string> conversions;  ///< empty: all that fit
  std::string roster;                    ///< empty: none
};

/// Bounds of what is kept and worked on.
struct ServiceLimits {
  std::size_t upload_bytes = std::size_t{32} << 20U;
  std::size_t json_bytes = std::size_t{1} << 20U;
  std::size_t save_bytes = std::size_t{32} << 20U;
  std::size_t kept_score_bytes = std::size_t{256} << 20U;
  std::size_t kept_plan_bytes = std::size_t{512} << 20U;
  std::size_t notes = 20'000;
  std::size_t lanes_notes = 4'000;  ///< of all spans of one request together
};

/// May be asked from many threads. Every method throws InputError for a bad request and Gone for a dropped token.
class Service {
 public:
  Service(const ServiceOptions& options, const ServiceLimits& limits);

  [[nodiscard]] const ServiceLimits& limits() const { return limits_; }
  /// What has not begun by now is given up (Stopping).
  void stop() { working_.stop(); }

  [[nodiscard]] Answer program() const;
  [[nodiscard]] Answer bring_score(const std::string& name, std::string bytes);
  [[nodiscard]] Answer bring_demo(std::string_view body);
  /// What was answered when the score was brought.
  [[nodiscard]] Answer score_again(std::string_view body);
  /// A file that the command line names; gives its token.
  [[nodiscard]] std::string bring_file(const std::string& path);
  [[nodiscard]] Answer engraving(std::string_view body);
  [[nodiscard]] Answer plan(std::string_view body);
  [[nodiscard]] Answer lanes(std::string_view body);
  [[nodiscard]] Answer note(std::string_view body);
  [[nodiscard]] Answer trills(std::string_view body);
  [[nodiscard]] Answer trill(std::string_view body);
  [[nodiscard]] Answer read_choices(std::string_view body);
  [[nodiscard]] Answer save(std::string_view body);
  [[nodiscard]] Answer repertoire() const;
  [[nodiscard]] Answer roster() const;
  [[nodiscard]] Answer roster_sheet(std::string_view body) const;
  /// A file of the page, the engraver or the guide; `folder` is "page", "engraver" or "guide". Status 404 without one.
  [[nodiscard]] Answer file(const std::string& folder, std::string_view path) const;
  /// The rules that colour lanes.
  [[nodiscard]] static Answer lanes_style();

  /// All rules of the file pages, for what is taken from them.
  [[nodiscard]] static Answer report_style();

 private:
  void start_background(const ServiceOptions& options);
  [[nodiscard]] std::shared_ptr<const KeptScore> keep(const std::string& name, std::string bytes);
  [[nodiscard]] Answer told(const KeptScore& score) const;
  [[nodiscard]] std::shared_ptr<const KeptScore> kept_score(const std::string& token);
  [[nodiscard]] std::shared_ptr<const KeptPlan> kept_plan(const std::string& token);
  [[nodiscard]] const KeptSide& kept_side(const KeptPlan& plan, std::size_t side) const;
  void require_notes(const KeptPlan& plan, const LaneSpan& span, const std::string& field) const;
  [[nodiscard]] std::shared_ptr<const Played> played(const PlayedRequest& request, const std::string& field);
  [[nodiscard]] std::shared_ptr<const PreparedPassage> prepared(const PlanAsk& ask, const KeptScore& score);

  ServiceLimits limits_;
  Catalogue catalogue_;
  Store<KeptScore> scores_;
  Store<KeptPlan> plans_;
  Store<PreparedPassage> prepared_;
  Store<Played> played_;
  Turns working_;  ///< as many plans at a time as there are cores
  std::unique_ptr<Background> repertoire_;
  mutable std::mutex class_mutex_;
  std::shared_ptr<const Assignment> class_;  ///< null until it is worked out
  std::unique_ptr<Background> roster_;       ///< last: ends before what it writes to
};

}  // namespace fingerway
