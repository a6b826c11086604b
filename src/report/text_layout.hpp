// What this part answers: aligned columns and wrapped lines for a terminal of 100 columns.
// Private to report. Widths count characters, not bytes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

inline constexpr std::size_t text_width = 100;

/// Characters of UTF-8 text.
[[nodiscard]] std::size_t width(std::string_view text);
/// Breaks at spaces; a word longer than a line stays whole. At least one line.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t columns);
/// `text` as a paragraph: `first` before its first line, as many spaces before the others, a newline after each.
[[nodiscard]] std::string paragraph(std::string_view first, std::string_view text);
/// The same line underlined with `-`, or `=` for the title.
[[nodiscard]] std::string heading(std::string_view text, char line = '-');

enum class Align { left, right };

struct Column {
  std::string head;
  Align align = Align::left;
  std::size_t widest = text_width;  ///< longer cells are wrapped
};

/// Rows under column heads. Columns are as wide as their widest cell; two spaces between them.
class Table {
 public:
  explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

  void row(std::vector<std::string> cells) { rows_.push_back({std::move(cells), {}}); }
  /// A line of its own between rows, under the columns from the second on.
  void remark(std::string text) { rows_.push_back({{}, std::move(text)}); }
  /// A row that starts a group, flush left.
  void group(std::string text) { rows_.push_back({{}, "\n" + std::move(text)}); }
  [[nodiscard]] std::string text() const;

 private:
  struct Row {
    std::vector<std::string> cells;
    std::string line;
  };
  [[nodiscard]] std::vector<std::size_t> widths() const;

  std::vector<Column> columns_;
  std::vector<Row> rows_;
};

}  // namespace fingerway
