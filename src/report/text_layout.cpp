#include "text_layout.hpp"

#include <algorithm>

namespace fingerway {
namespace {

constexpr std::string_view between = "  ";

std::string trimmed_end(std::string text) {
  while (text.ends_with(' ')) text.pop_back();
  return text;
}

std::string padded(const std::string& cell, std::size_t columns, Align align) {
  const std::size_t own = width(cell);
  const std::string space(columns > own ? columns - own : 0, ' ');
  return align == Align::left ? cell + space : space + cell;
}

}  // namespace

std::size_t width(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::vector<std::string> wrapped(std::string_view text, std::size_t columns) {
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!lines.back().empty() && width(lines.back()) + 1 + width(word) > columns) lines.emplace_back();
    if (!lines.back().empty()) lines.back() += ' ';
    lines.back() += word;
  }
  return lines;
}

std::string paragraph(std::string_view first, std::string_view text) {
  std::string result;
  const std::size_t indent = width(first);
  for (const std::string& line : wrapped(text, text_width - indent)) {
    result += (result.empty() ? std::string(first) : std::string(indent, ' ')) + line + "\n";
  }
  return result;
}

std::string heading(std::string_view text, char line) {
  return std::string(text) + "\n" + std::string(width(text), line) + "\n";
}

std::vector<std::size_t> Table::widths() const {
  std::vector<std::size_t> widest;
  for (const Column& column : columns_) widest.push_back(width(column.head));
  for (const Row& row : rows_) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      for (const std::string& line : wrapped(row.cells[i], columns_[i].widest)) {
        widest[i] = std::max(widest[i], width(line));
      }
    }
  }
  return widest;
}

std::string Table::text() const {
  const std::vector<std::size_t> widest = widths();
  const auto line_of = [&](const std::vector<std::string>& cells) {
    std::string line;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (i > 0) line += between;
      line += padded(cells[i], widest[i], columns_[i].align);
    }
    return trimmed_end(line) + "\n";
  };
  std::vector<std::string> heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  std::string result = line_of(heads);
  const std::string remark_indent(widest.front() + between.size(), ' ');
  for (const Row& row : rows_) {
    if (row.cells.empty()) {
      result += row.line.starts_with('\n') ? row.line + "\n" : paragraph(remark_indent, row.line);
      continue;
    }
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      cells.push_back(wrapped(row.cells[i], columns_[i].widest));
      height = std::max(height, cells.back().size());
    }
    for (std::size_t l = 0; l < height; ++l) {
      std::vector<std::string> one;
      one.reserve(cells.size());
      for (const auto& cell : cells) one.push_back(l < cell.size() ? cell[l] : std::string());
      result += line_of(one);
    }
  }
  return result;
}

}  // namespace fingerway
