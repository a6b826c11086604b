// What this part answers: a JSON value being put together, in the order its fields are added.
// Private to report. Writing it out is left to a library (json_value.cpp).
#pragma once

#include <cstdint>
#include <functional>
#include <initializer_list>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "fingerway/base/text.hpp"

namespace fingerway {

/// null, a number, a string, a list or an object with its fields in order.
class Json {
 public:
  using List = std::vector<Json>;
  using Object = std::vector<std::pair<std::string, Json>>;
  using Value = std::variant<std::nullptr_t, bool, std::int64_t, double, std::string, List, Object>;

  Json() = default;
  explicit Json(bool value) : value_(value) {}
  explicit Json(double value) : value_(value) {}
  explicit Json(int value) : value_(std::int64_t{value}) {}
  explicit Json(std::size_t value) : value_(static_cast<std::int64_t>(value)) {}
  explicit Json(std::string value) : value_(std::move(value)) {}
  explicit Json(std::string_view value) : value_(std::string(value)) {}
  explicit Json(const char* value) : value_(std::string(value)) {}
  explicit Json(const std::vector<std::string>& values) : value_(List(values.begin(), values.end())) {}

  [[nodiscard]] static Json list() {
    Json json;
    json.value_ = List();
    return json;
  }
  [[nodiscard]] static Json object() {
    Json json;
    json.value_ = Object();
    return json;
  }

  /// Adds a field to an object; each name once.
  template <class T>
  Json& with(std::string name, T&& value) {
    std::get<Object>(value_).emplace_back(std::move(name), as_json(std::forward<T>(value)));
    return *this;
  }
  /// Adds an item to a list.
  template <class T>
  Json& add(T&& value) {
    std::get<List>(value_).push_back(as_json(std::forward<T>(value)));
    return *this;
  }

  [[nodiscard]] const Value& value() const { return value_; }

 private:
  template <class T>
  static Json as_json(T&& value) {
    return Json(std::forward<T>(value));
  }

  Value value_ = nullptr;
};

/// The text of a value, indented by one space, with a newline at its end. A number that is not finite becomes null.
[[nodiscard]] std::string text_of(const Json& json);
/// The text of an object, with a list instead of null as its field of this name. Items are made and sent one after
/// another, as there may be very many.
void send_with_list(const std::string& text, const std::string& name, std::size_t count,
                    const std::function<Json(std::size_t)>& item, const TextSink& sink);
/// The same on one line, without blanks.
[[nodiscard]] std::string short_text_of(const Json& json);

}  // namespace fingerway
