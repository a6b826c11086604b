#include "yaml_tree.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <fstream>
#include <sstream>
#include <system_error>
#include <utility>

#include "fingerway/base/text.hpp"

namespace fingerway {

namespace {

bool is_white_space(char c) { return c == '\t' || c == '\n' || c == '\r'; }

/// YAML must be text: refused before the parser sees it, so that it meets no encodings but UTF-8.
void require_text(std::string_view text, const std::string& file) {
  int line = 1;
  std::size_t line_start = 0;
  std::size_t i = 0;
  while (i < text.size()) {
    const std::size_t length = utf8_length(text, i);
    if (length == 0 || (is_control(text, i) && !is_white_space(text[i]))) {
      throw InputError(Fault{{file, line, 0, {}}, "not a text file", "YAML in UTF-8 is expected"});
    }
    if (i - line_start >= longest_yaml_line) {
      throw InputError(Fault{{file, line, 0, {}},
                             "a line of more than " + std::to_string(longest_yaml_line) + " bytes",
                             "break the line"});
    }
    i += length;
    if (text[i - length] == '\n') {
      ++line;
      line_start = i;
    }
  }
}

/// Builds the tree from the parser's events, refusing what is not plain data.
class TreeBuilder : public YAML::EventHandler {
 public:
  explicit TreeBuilder(std::string file) : file_(std::move(file)) {}

  [[nodiscard]] YamlNode take() { return std::move(root_); }

  void OnDocumentStart(const YAML::Mark& /*mark*/) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    place(node(mark, YamlNode::Kind::null));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    fail(mark, "an alias (*name) is not allowed", "write the value out");
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    for (std::size_t i = 0; i < value.size();) {
      const std::size_t length = utf8_length(value, i);
      // A text may have lines; nothing else in it may steer a terminal.
      if (length == 0 || (is_control(value, i) && value[i] != '\n' && value[i] != '\t')) {
        fail(mark, "a control character in a text", "write plain text");
      }
      i += length;
    }
    YamlNode scalar = node(mark, YamlNode::Kind::scalar);
    scalar.text = value;
    scalar.quoted = tag == "!";
    place(std::move(scalar));
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, YamlNode::Kind::sequence);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value /*style*/) override {
    open(mark, tag, anchor, YamlNode::Kind::map);
  }
  void OnMapEnd() override { close(); }

 private:
  [[noreturn]] void fail(const YAML::Mark& mark, std::string what, std::string hint) const {
    throw InputError(Fault{{file_, mark.line + 1, mark.column + 1, {}}, std::move(what), std::move(hint)});
  }

  void refuse_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) const {
    if (anchor != 0) fail(mark, "an anchor (&name) is not allowed", "write the value out");
  }

  // The parser gives "?" to plain values, "!" to quoted ones, nothing to collections; all else was written there.
  void refuse_tag(const YAML::Mark& mark, const std::string& tag) const {
    if (!tag.empty() && tag != "?" && tag != "!") fail(mark, "a tag (!name) is not allowed", "write the plain value");
  }

  [[nodiscard]] static YamlNode node(const YAML::Mark& mark, YamlNode::Kind kind) {
    YamlNode made;
    made.kind = kind;
    made.line = mark.line + 1;
    made.column = mark.column + 1;
    return made;
  }

  void open(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, YamlNode::Kind kind) {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    if (stack_.size() >= deepest_yaml) fail(mark, "nested too deeply", "at most " + std::to_string(deepest_yaml));
    stack_.push_back(node(mark, kind));
  }

  void close() {
    YamlNode done = std::move(stack_.back());
    stack_.pop_back();
    place(std::move(done));
  }

  void place(YamlNode value) {
    if (++count_ > most_yaml_nodes) {
      throw InputError(Fault{{file_, value.line, value.column, {}},
                             "more than " + std::to_string(most_yaml_nodes) + " values in one file",
                             {}});
    }
    if (stack_.empty()) {
      root_ = std::move(value);
      return;
    }
    YamlNode& parent = stack_.back();
    const bool is_key = parent.kind == YamlNode::Kind::map && parent.keys.size() == parent.items.size();
    (is_key ? parent.keys : parent.items).push_back(std::move(value));
  }

  std::string file_;
  std::vector<YamlNode> stack_;
  YamlNode root_;
  std::size_t count_ = 0;
};

}  // namespace

void FaultList::add(Fault fault) {
  if (faults_.size() < most_listed_faults) {
    faults_.push_back(std::move(fault));
  } else {
    ++unlisted_;
  }
}

void FaultList::throw_if_any() const {
  if (faults_.empty()) return;
  std::vector<Fault> faults = faults_;
  if (unlisted_ > 0)
    faults.push_back(Fault{{file_, 0, 0, {}}, "and " + std::to_string(unlisted_) + " more faults", {}});
  throw InputError(std::move(faults));
}

std::string read_text_file(const std::filesystem::path& file) {
  std::error_code error;
  const std::filesystem::file_status status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) throw FileError(file.string(), "no such file");
  if (std::filesystem::is_directory(status)) throw FileError(file.string(), "is a folder, not a file");
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw FileError(file.string(), "cannot be read");
  // Read in steps until the end or one byte more than allowed: size queries do not work on pipes.
  std::string text;
  constexpr std::size_t step = std::size_t{64} * 1024;
  while (stream && text.size() <= largest_yaml_file) {
    const std::size_t had = text.size();
    text.resize(had + step);
    stream.read(text.data() + had, step);
    text.resize(had + static_cast<std::size_t>(stream.gcount()));
  }
  if (stream.bad()) throw FileError(file.string(), "cannot be read");
  if (text.size() > largest_yaml_file) {
    throw InputError(Fault{{file.string(), 0, 0, {}}, "larger than 8 MiB", "no such file needs that much"});
  }
  return text;
}

YamlNode parse_yaml(const std::string& text, const std::string& file) {
  require_text(text, file);
  std::istringstream stream(text);
  TreeBuilder builder(file);
  try {
    YAML::Parser parser(stream);
    if (!parser.HandleNextDocument(builder)) {
      throw InputError(Fault{{file, 0, 0, {}}, "the file is empty", {}});
    }
    YamlNode root = builder.take();
    TreeBuilder next(file);
    if (parser.HandleNextDocument(next)) {
      const YamlNode second = next.take();
      throw InputError(Fault{{file, second.line, second.column, {}}, "a second document", "one document a file"});
    }
    return root;
  } catch (const YAML::Exception& error) {
    throw InputError(Fault{{file, error.mark.line + 1, error.mark.column + 1, {}}, "not YAML: " + error.msg, {}});
  }
}

YamlNode load_yaml(const std::filesystem::path& file) { return parse_yaml(read_text_file(file), file.string()); }

}  // namespace fingerway
