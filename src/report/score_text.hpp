// What this part answers: where in a MusicXML text the notes of a part stand, where a fingering can be put in at one,
// and which bytes of it are marks of ours. It writes nothing.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "markup.hpp"

namespace pugi {
class xml_document;
class xml_node;
}  // namespace pugi

namespace fingerway {

/// Text to be put in at a byte of the original.
struct Insertion {
  std::size_t at = 0;
  std::string text;
};

/// Bytes of the original to be left out, from `start` to before `end`.
struct Cut {
  std::size_t start = 0;
  std::size_t end = 0;
};

/// A parsed score that knows the bytes of its elements. The text must outlive it.
class ScoreText {
 public:
  /// Throws InputError when the text is no well-formed score.
  explicit ScoreText(std::string_view text);
  ~ScoreText();
  ScoreText(const ScoreText&) = delete;
  ScoreText& operator=(const ScoreText&) = delete;

  /// The note elements of a part, by id, in document order. Throws InputError when there is no such part.
  [[nodiscard]] std::vector<pugi::xml_node> notes(const std::string& part_id) const;
  /// The note elements of all parts, in document order.
  [[nodiscard]] std::vector<pugi::xml_node> notes() const;

  /// How to add elements (already written out) inside a <technical> of the note, announced as ours.
  [[nodiscard]] Insertion insertion(const pugi::xml_node& note, const std::vector<std::string>& elements) const;
  /// What of the note is ours, in order.
  [[nodiscard]] std::vector<Cut> marks_of(const pugi::xml_node& note) const;

 private:
  struct Bar;
  [[nodiscard]] std::vector<Bar> bars() const;
  [[nodiscard]] Insertion after_last(const pugi::xml_node& parent, const pugi::xml_node& last,
                                     const std::vector<std::string>& wrapped_in,
                                     const std::vector<std::string>& elements) const;
  void add_cuts(const pugi::xml_node& sign, std::vector<Cut>& cuts) const;
  [[nodiscard]] Cut whole(const pugi::xml_node& element) const;
  [[nodiscard]] ElementSpan span(const pugi::xml_node& element) const;

  std::string_view text_;
  std::unique_ptr<pugi::xml_document> document_;
};

}  // namespace fingerway
