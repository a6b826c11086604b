#include "payoff_material.hpp"

#include <algorithm>
#include <iterator>

#include "data_folders.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/read/motion_file.hpp"

namespace fingerway {
namespace {

std::vector<std::string> asked_for(const PayoffRequest& request, const Instrument& stock,
                                   const InstrumentFolders& folders) {
  if (!request.conversions.empty()) {
    std::vector<std::string> ids;
    for (const std::string& id : request.conversions) {
      if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
    }
    return ids;
  }
  std::vector<std::string> ids = conversion_ids(stock.id, folders);
  if (ids.empty()) {
    throw InputError(Fault{{.file = stock.file, .line = 0, .column = 0, .within = {}},
                           "no conversions for the " + stock.name + " are known",
                           "name files with --conversions"});
  }
  return ids;
}

bool is_part_of(const std::vector<std::size_t>& part, const std::vector<std::size_t>& whole) {
  return std::ranges::includes(whole, part);
}

/// Loads the stock instrument, each conversion, and the sets of them.
class SetLoader {
 public:
  SetLoader(const PayoffRequest& request, const InstrumentFolders& folders, PayoffMaterial& material)
      : request_(request), folders_(folders), material_(material) {}

  void load() {
    material_.variants.push_back(variant({}));
    const Instrument& stock = material_.variants.front().played.instrument;
    if (!stock.conversions.empty()) {
      throw InputError(Fault{{},
                             "-i names an instrument that is converted already",
                             "name the stock instrument with -i, and conversions with --conversions"});
    }
    ids_ = asked_for(request_, stock, folders_);
    if (ids_.size() > most_conversions) {
      std::string known;
      for (const std::string& id : ids_) known += (known.empty() ? "" : ",") + id;
      Fault fault;
      fault.what = std::to_string(ids_.size()) + " conversions make too many sets";
      fault.hint = "name at most " + std::to_string(most_conversions) + " of them with --conversions: " + known;
      throw InputError(std::move(fault));
    }
    for (const auto& members : subsets(ids_.size())) {
      if (!members.empty()) add(members);
    }
  }

 private:
  Variant variant(const std::vector<std::size_t>& members) const {
    PlayedRequest request = request_.played;
    for (std::size_t member : members) request.instrument += "+" + ids_[member];
    Variant result{.members = members, .played = load_played(request, folders_), .cost = {}};
    result.cost = cost_of(result.played.instrument);
    return result;
  }

  /// Sums of what is known; a set of unknown cost is not within any budget.
  [[nodiscard]] bool affordable(const std::vector<std::size_t>& members) const {
    Instrument sheets;
    for (std::size_t member : members) sheets.conversions.push_back(material_.conversions[member]);
    return within(cost_of(sheets), request_.budget);
  }

  void add(const std::vector<std::size_t>& members) {
    if (members.size() == 1) {
      // A conversion that cannot be read by itself is a fault of the request.
      material_.variants.push_back(variant(members));
      material_.conversions.push_back(material_.variants.back().played.instrument.conversions.front());
      return;
    }
    const bool hopeless =
        std::ranges::any_of(material_.refused, [&](const RefusedSet& set) { return is_part_of(set.members, members); });
    if (hopeless || !affordable(members)) return;
    if (material_.variants.size() >= most_sets) {
      throw InputError(Fault{{},
                             "more than " + std::to_string(most_sets) + " sets of conversions",
                             "name fewer conversions, or a smaller --budget"});
    }
    try {
      material_.variants.push_back(variant(members));
    } catch (const InputError& error) {
      material_.refused.push_back({.members = members, .why = error.faults().front().what});
    }
  }

  const PayoffRequest& request_;
  const InstrumentFolders& folders_;
  PayoffMaterial& material_;
  std::vector<std::string> ids_;
};

}  // namespace

PayoffMaterial load_payoff(const PayoffRequest& request, const InstrumentFolders& folders) {
  PayoffMaterial material;
  material.numbers = read_motion_numbers(motion_file(folders));
  SetLoader(request, folders, material).load();
  material.repertoire = load_repertoire(request.repertoire, material.variants.front().played);
  return material;
}

}  // namespace fingerway
