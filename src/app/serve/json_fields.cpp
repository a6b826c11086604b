#include "json_fields.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

namespace fingerway {
namespace {

using Value = nlohmann::json;

constexpr int deepest = 16;
constexpr std::size_t most_faults = 20;
constexpr std::size_t longest_text = 1'000'000;

const Value& value_of(const void* value) { return *static_cast<const Value*>(value); }

std::string whole(double number) { return std::to_string(static_cast<long long>(number)); }

}  // namespace

class JsonRequest {
 public:
  explicit JsonRequest(std::string_view body) {
    const auto not_too_deep = [](int depth, Value::parse_event_t, Value&) {
      if (depth > deepest) {
        throw InputError(Fault{place({}), "nested more than " + std::to_string(deepest) + " deep", ""});
      }
      return true;
    };
    try {
      root_ = Value::parse(body.begin(), body.end(), not_too_deep);
    } catch (const Value::exception& error) {
      throw InputError(Fault{place({}), "is not JSON: " + reason(error.what()), "send one JSON object in UTF-8"});
    }
    if (!root_.is_object()) throw InputError(Fault{place({}), "must be a JSON object", "as {\"plan\": ...}"});
  }

  [[nodiscard]] static Place place(const std::string& path) {
    return {.file = "request", .line = 0, .column = 0, .within = path};
  }

  void add(const std::string& path, const std::string& what, const std::string& hint) {
    if (faults_.size() < most_faults) faults_.push_back({place(path), what, hint});
  }

  void throw_if_any() const {
    if (!faults_.empty()) throw InputError(faults_);
  }

  [[nodiscard]] const Value& root() const { return root_; }

 private:
  /// The library's message without its own name in front.
  static std::string reason(const std::string& what) {
    const std::size_t end = what.find("] ");
    return end == std::string::npos ? what : what.substr(end + 2);
  }

  Value root_;
  std::vector<Fault> faults_;
};

JsonFields::JsonFields(JsonRequest& request, const void* object, std::string path)
    : request_(request), object_(object), path_(std::move(path)) {}

const void* JsonFields::find(const std::string& name, bool needed) {
  known_.push_back(name);
  const Value& object = value_of(object_);
  const auto found = object.find(name);
  if (found == object.end() || found->is_null()) {
    if (needed) fault(name, "is missing");
    return nullptr;
  }
  return &*found;
}

void JsonFields::fault(const std::string& name, const std::string& what, const std::string& hint) {
  request_.add(path_ + name, what, hint);
}

std::string JsonFields::text(const std::string& name, bool needed) {
  const void* field = find(name, needed);
  if (field == nullptr) return {};
  const Value& value = value_of(field);
  if (!value.is_string()) {
    fault(name, "must be a text", "in double quotes");
    return {};
  }
  std::string text = value.get<std::string>();
  if (needed && text.empty()) fault(name, "is empty");
  if (text.size() > longest_text) fault(name, "is too long");
  return text;
}

std::optional<double> JsonFields::number(const std::string& name, double low, double high) {
  const void* field = find(name, false);
  if (field == nullptr) return std::nullopt;
  const Value& value = value_of(field);
  const double number = value.is_number() ? value.get<double>() : NAN;
  if (!std::isfinite(number) || number < low || number > high) {
    fault(name, "must be a number from " + whole(low) + " to " + whole(high));
    return std::nullopt;
  }
  return number;
}

std::optional<std::size_t> JsonFields::count(const std::string& name, std::size_t most, bool needed) {
  const void* field = find(name, needed);
  if (field == nullptr) return std::nullopt;
  const Value& value = value_of(field);
  if (!value.is_number_unsigned() || value.get<std::uint64_t>() > most) {
    fault(name, "must be a whole number from 0 to " + std::to_string(most));
    return std::nullopt;
  }
  return value.get<std::size_t>();
}

bool JsonFields::flag(const std::string& name, bool otherwise) {
  const void* field = find(name, false);
  if (field == nullptr) return otherwise;
  if (value_of(field).is_boolean()) return value_of(field).get<bool>();
  fault(name, "must be true or false");
  return otherwise;
}

std::vector<std::string> JsonFields::texts(const std::string& name) {
  const void* field = find(name, false);
  if (field == nullptr) return {};
  const Value& value = value_of(field);
  constexpr std::size_t most = 64;
  const bool fits = value.is_array() && value.size() <= most &&
                    std::ranges::all_of(value, [](const Value& item) { return item.is_string(); });
  if (fits) return value.get<std::vector<std::string>>();
  fault(name, "must be a list of at most " + std::to_string(most) + " texts");
  return {};
}

std::string JsonFields::word(const std::string& name, const std::vector<std::string>& words,
                             const std::string& otherwise) {
  const std::string word = text(name);
  if (word.empty()) return otherwise;
  if (std::ranges::find(words, word) != words.end()) return word;
  std::string list;
  for (const std::string& known : words) list += (list.empty() ? "" : ", ") + known;
  fault(name, "'" + word.substr(0, 40) + "' is not known", "one of " + list);
  return otherwise;
}

void JsonFields::each(const std::string& name, std::size_t most, const std::function<void(JsonFields&)>& item) {
  const void* field = find(name, false);
  if (field == nullptr) return;
  const Value& value = value_of(field);
  if (!value.is_array() || value.size() > most) {
    fault(name, "must be a list of at most " + std::to_string(most));
    return;
  }
  for (std::size_t i = 0; i < value.size(); ++i) {
    const std::string path = path_ + name + "[" + std::to_string(i) + "]";
    if (!value[i].is_object()) {
      request_.add(path, "must be an object", "");
      continue;
    }
    JsonFields fields(request_, &value[i], path + ".");
    item(fields);
    fields.finish();
  }
}

void JsonFields::inner(const std::string& name, const std::function<void(JsonFields&)>& object) {
  const void* field = find(name, false);
  if (field == nullptr) return;
  if (!value_of(field).is_object()) {
    fault(name, "must be an object");
    return;
  }
  JsonFields fields(request_, field, path_ + name + ".");
  object(fields);
  fields.finish();
}

std::vector<std::pair<double, double>> JsonFields::pairs(const std::string& name, std::size_t most) {
  const void* field = find(name, false);
  if (field == nullptr) return {};
  const Value& value = value_of(field);
  const auto is_pair = [](const Value& item) {
    return item.is_array() && item.size() == 2 && item[0].is_number() && item[1].is_number();
  };
  std::vector<std::pair<double, double>> pairs;
  if (!value.is_array() || value.size() > most || !std::ranges::all_of(value, is_pair)) {
    fault(name, "must be a list of at most " + std::to_string(most) + " pairs of numbers");
    return pairs;
  }
  for (const Value& item : value) pairs.emplace_back(item[0].get<double>(), item[1].get<double>());
  return pairs;
}

void JsonFields::finish() {
  for (const auto& field : value_of(object_).items()) {
    if (std::ranges::find(known_, field.key()) != known_.end()) continue;
    const std::string near = nearest_word(field.key(), known_);
    fault(field.key().substr(0, 60), "is not a field of this request",
          near.empty() ? "" : "did you mean '" + near + "'?");
  }
}

void read_json_request(std::string_view body, const std::function<void(JsonFields&)>& read) {
  JsonRequest request(body);
  JsonFields fields(request, &request.root(), "");
  read(fields);
  fields.finish();
  request.throw_if_any();
}

}  // namespace fingerway
