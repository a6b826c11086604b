#include "musicxml_findings.hpp"

#include <utility>

namespace fingerway {

namespace {

// A file that is wrong all through is described well enough by its first faults.
constexpr std::size_t most_faults = 20;
// A remark is told at its first places; kinds are few unless a file is all wrong.
constexpr std::size_t most_places = 6;
constexpr std::size_t most_kinds = 200;

}  // namespace

Findings::Findings(std::string file, std::string part_id) : file_(std::move(file)), part_id_(std::move(part_id)) {}

void Findings::fault(std::string what, std::string hint) {
  if (faults_.size() == most_faults) {
    ++untold_;
    return;
  }
  std::string within = "part " + part_id_;
  if (!measure_.empty()) within += " measure " + measure_;
  faults_.push_back({{file_, 0, 0, std::move(within)}, std::move(what), std::move(hint)});
}

void Findings::remark(const std::string& what) {
  const auto known = told_.find(what);
  if (known == told_.end() && told_.size() == most_kinds) {
    ++untold_remarks_;
    return;
  }
  Told& told = known != told_.end() ? known->second : told_[what];
  if (!told.places.insert(measure_).second) return;
  if (told.places.size() > most_places) {
    ++told.more;
    return;
  }
  told.last = remarks_.size();
  remarks_.push_back({measure_.empty() ? std::string() : "measure " + measure_, what});
}

std::vector<Remark> Findings::take_remarks() {
  for (const auto& [what, told] : told_) {
    if (told.more > 0) remarks_[told.last].what += " (and in " + std::to_string(told.more) + " more measures)";
  }
  told_.clear();
  if (untold_remarks_ > 0) remarks_.push_back({{}, std::to_string(untold_remarks_) + " more remarks are not listed"});
  return std::move(remarks_);
}

void Findings::throw_if_any() {
  if (faults_.empty()) return;
  if (untold_ > 0) {
    faults_.push_back({{file_, 0, 0, "part " + part_id_}, std::to_string(untold_) + " more faults are not listed", {}});
  }
  throw InputError(std::move(faults_));
}

}  // namespace fingerway
