// What this part answers: the fields of a JSON request, each read once and strictly; what is wrong is collected with
// the field's path. Private to asks.cpp and what reads requests: the JSON library stays out of this header.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/base/errors.hpp"

namespace fingerway {

/// One request's JSON, and the faults found in it.
class JsonRequest;

/// One object of it. Fields not asked for before `finish` are faults.
class JsonFields {
 public:
  JsonFields(JsonRequest& request, const void* object, std::string path);

  [[nodiscard]] std::string text(const std::string& name, bool needed = false);
  [[nodiscard]] std::optional<double> number(const std::string& name, double low, double high);
  [[nodiscard]] std::optional<std::size_t> count(const std::string& name, std::size_t most, bool needed = false);
  [[nodiscard]] bool flag(const std::string& name, bool otherwise);
  [[nodiscard]] std::vector<std::string> texts(const std::string& name);
  /// One of these words; `otherwise` where the field is not there.
  [[nodiscard]] std::string word(const std::string& name, const std::vector<std::string>& words,
                                 const std::string& otherwise);
  /// Every object of a list, in order; none where the field is not there.
  void each(const std::string& name, std::size_t most, const std::function<void(JsonFields&)>& item);
  void inner(const std::string& name, const std::function<void(JsonFields&)>& object);
  /// Every pair of numbers of a list.
  [[nodiscard]] std::vector<std::pair<double, double>> pairs(const std::string& name, std::size_t most);
  void fault(const std::string& name, const std::string& what, const std::string& hint = {});
  void finish();

 private:
  [[nodiscard]] const void* find(const std::string& name, bool needed);

  JsonRequest& request_;
  const void* object_;
  std::string path_;
  std::vector<std::string> known_;
};

/// Parses a body, reads its object with `read`, and throws InputError with all faults.
void read_json_request(std::string_view body, const std::function<void(JsonFields&)>& read);

}  // namespace fingerway
