#include "guard.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace fingerway {
namespace {

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  return result;
}

bool is_plain(std::string_view name) {
  if (name.empty() || name.front() == '.' || name.size() > 100) return false;
  return std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' ||
           c == '_';
  });
}

}  // namespace

std::vector<std::string> own_names(int port, const std::string& allowed_host) {
  std::vector<std::string> names;
  for (const std::string& host :
       {std::string("127.0.0.1"), std::string("localhost"), std::string("[::1]"), lower(allowed_host)}) {
    if (host.empty()) continue;
    names.push_back(host + ":" + std::to_string(port));
    if (port == 80) names.push_back(host);
  }
  return names;
}

std::optional<std::string> refused(std::string_view host, std::string_view origin,
                                   const std::vector<std::string>& names) {
  if (std::ranges::find(names, lower(host)) == names.end()) {
    return "this server answers to " + names.front() + " only (open that address; --allow-host adds a name)";
  }
  if (origin.empty()) return std::nullopt;
  const std::string from = lower(origin);
  const bool ours = std::ranges::any_of(names, [&](const std::string& name) { return from == "http://" + name; });
  if (!ours) return "a page from elsewhere may not ask this server (open its own page)";
  return std::nullopt;
}

std::optional<std::string> plain_path(std::string_view path) {
  if (path.empty() || path.size() > 500) return std::nullopt;
  for (std::size_t start = 0; start <= path.size();) {
    const std::size_t end = std::min(path.find('/', start), path.size());
    const std::string_view step = path.substr(start, end - start);
    if (!is_plain(step) || step == "node_modules") return std::nullopt;
    start = end + 1;
  }
  return std::string(path);
}

std::string media_type(std::string_view path) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 12> types = {
      {{".html", "text/html; charset=utf-8"},
       {".css", "text/css; charset=utf-8"},
       {".js", "text/javascript; charset=utf-8"},
       {".mjs", "text/javascript; charset=utf-8"},
       {".json", "application/json"},
       {".svg", "image/svg+xml"},
       {".png", "image/png"},
       {".ico", "image/x-icon"},
       {".wasm", "application/wasm"},
       {".woff2", "font/woff2"},
       {".txt", "text/plain; charset=utf-8"},
       {".webmanifest", "application/manifest+json"}}};
  for (const auto& [ending, type] : types) {
    if (path.ends_with(ending)) return std::string(type);
  }
  return "application/octet-stream";
}

}  // namespace fingerway
