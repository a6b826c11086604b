#include "json_value.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <type_traits>

namespace fingerway {
namespace {

using Library = nlohmann::ordered_json;

Library converted(const Json& json) {
  return std::visit(
      [](const auto& value) -> Library {
        using T = std::decay_t<decltype(value)>;
        if constexpr (std::is_same_v<T, Json::List>) {
          Library list = Library::array();
          for (const Json& item : value) list.push_back(converted(item));
          return list;
        } else if constexpr (std::is_same_v<T, Json::Object>) {
          Library object = Library::object();
          for (const auto& [name, field] : value) object[name] = converted(field);
          return object;
        } else if constexpr (std::is_same_v<T, double>) {
          return std::isfinite(value) ? Library(value) : Library(nullptr);
        } else {
          return Library(value);
        }
      },
      json.value());
}

}  // namespace

std::string text_of(const Json& json) {
  // Text from a score may hold anything; what is not UTF-8 is replaced, never thrown at the caller.
  return converted(json).dump(1, ' ', false, Library::error_handler_t::replace) + "\n";
}

void send_with_list(const std::string& text, const std::string& name, std::size_t count,
                    const std::function<Json(std::size_t)>& item, const TextSink& sink) {
  // Only the field itself stands so at the start of a line: lines break nowhere else, and what is inside stands deeper.
  const std::string field = "\n \"" + name + "\": ";
  const std::size_t place = text.find(field + "null") + field.size();
  const std::string_view whole = text;
  sink(whole.substr(0, place));
  sink("[");
  for (std::size_t i = 0; i < count; ++i) {
    std::string part = i == 0 ? "\n  " : ",\n  ";
    std::string one = text_of(item(i));
    one.pop_back();
    for (const char letter : one) {
      part += letter;
      if (letter == '\n') part += "  ";
    }
    sink(part);
  }
  sink(count == 0 ? "]" : "\n ]");
  sink(whole.substr(place + std::string_view("null").size()));
}

std::string short_text_of(const Json& json) {
  return converted(json).dump(-1, ' ', false, Library::error_handler_t::replace);
}

}  // namespace fingerway
