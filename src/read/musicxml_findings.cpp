#include "musicxml_findings.hpp"

#include <utility>

namespace fingerway {

namespace {

// A file that is wrong all through is described well enough by its first faults.
constexpr std::size_t most_faults = 20;

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

void Findings::remark(std::string what) {
  Remark remark{measure_.empty() ? std::string() : "measure " + measure_, std::move(what)};
  if (remarks_.empty() || remarks_.back() != remark) remarks_.push_back(std::move(remark));
}

void Findings::throw_if_any() {
  if (faults_.empty()) return;
  if (untold_ > 0) {
    faults_.push_back({{file_, 0, 0, "part " + part_id_}, std::to_string(untold_) + " more faults are not listed", {}});
  }
  throw InputError(std::move(faults_));
}

}  // namespace fingerway
