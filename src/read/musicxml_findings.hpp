// What this part answers: what is wrong with a score and what was left out, each with its place in words.
// It does not decide what is a fault; it never throws before it is asked to.
#pragma once

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "fingerway/music/passage.hpp"

namespace fingerway {

/// Faults and remarks of one reading, told at the measure being read.
class Findings {
 public:
  Findings(std::string file, std::string part_id);

  /// From now on, findings belong to the measure of this printed name.
  void at_measure(const std::string& printed_name) { measure_ = printed_name; }
  /// From now on, findings belong to the part as a whole.
  void at_part() { measure_.clear(); }

  /// Keeps the first faults and counts the rest.
  void fault(std::string what, std::string hint = {});
  /// Keeps a remark once a measure; of one that many measures have, the first few places and how many more.
  void remark(const std::string& what);
  /// Throws InputError when there was any fault.
  void throw_if_any();
  [[nodiscard]] bool any_fault() const { return !faults_.empty(); }
  [[nodiscard]] std::vector<Remark> take_remarks();

 private:
  struct Told {
    std::set<std::string> places;
    std::size_t last = 0;  // its last remark in the list
    std::size_t more = 0;
  };

  std::string file_;
  std::string part_id_;
  std::string measure_;
  std::vector<Fault> faults_;
  std::size_t untold_ = 0;
  std::vector<Remark> remarks_;
  std::map<std::string, Told, std::less<>> told_;
  std::size_t untold_remarks_ = 0;
};

}  // namespace fingerway
