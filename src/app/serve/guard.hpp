// What this part answers: whether a request may be answered at all, by the names it comes under, and which of the
// page's own files a path means. It opens nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

/// What the server answers to: "127.0.0.1:8321", "localhost:8321", "[::1]:8321", and the allowed host with the port.
[[nodiscard]] std::vector<std::string> own_names(int port, const std::string& allowed_host);

/// Nothing when the request may pass; else a sentence why not. A page of another origin must not reach this server,
/// not even by a name that it makes point here, so Host must be one of our names, and Origin, where there is one, ours.
[[nodiscard]] std::optional<std::string> refused(std::string_view host, std::string_view origin,
                                                 const std::vector<std::string>& names);

/// The path below a folder of ours, or nothing where it leads out of it or to anything hidden: every step is a plain
/// name of letters, digits, '.', '-' and '_' that does not start with a dot.
[[nodiscard]] std::optional<std::string> plain_path(std::string_view path);

/// The media type by a file's ending; "application/octet-stream" for those that are not a page's.
[[nodiscard]] std::string media_type(std::string_view path);

}  // namespace fingerway
