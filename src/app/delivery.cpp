#include "delivery.hpp"

#include <ostream>

namespace fingerway {

void deliver(const Outputs& outputs, const std::string& text, const Console& console) {
  outputs.write(console.out);
  if (outputs.to_standard_output()) return;
  console.out << text;
  for (const std::string& path : outputs.paths()) console.out << "wrote " << path << '\n';
}

void tell(const std::vector<Fault>& faults, const Console& console) {
  for (const Fault& fault : faults) console.err << message(fault) << '\n';
}

ExitCode code_for(const PlanSummary& summary) {
  return summary.complete && summary.fits ? ExitCode::done : ExitCode::does_not_fit;
}

void note_transposition(Passage& passage, const Instrument& instrument) {
  if (passage.transposition == instrument.transposition) return;
  passage.remarks.push_back(
      {"part " + passage.part_id, "the score sounds " + std::to_string(passage.transposition.interval.count) +
                                      " semitones from where it is written, " + instrument.name + " " +
                                      std::to_string(instrument.transposition.interval.count) +
                                      ": planned as written, as if it were a part for this instrument"});
}

}  // namespace fingerway
