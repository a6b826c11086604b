#include <algorithm>
#include <optional>
#include <pugixml.hpp>
#include <string_view>

#include "musicxml_names.hpp"
#include "musicxml_order.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr int most_times = 64;

bool is_yes(const pugi::xml_attribute& attribute) { return std::string_view(attribute.value()) == "yes"; }

/// "1, 2" or "1-3"; what is no number is left out.
std::vector<int> numbers_in(std::string_view text) {
  std::vector<int> numbers;
  while (!text.empty()) {
    const std::size_t comma = text.find_first_of(", ");
    const std::string_view item = text.substr(0, comma);
    text.remove_prefix(comma == std::string_view::npos ? text.size() : comma + 1);
    const std::size_t dash = item.find('-');
    const auto clean = [](std::string_view number) {
      while (!number.empty() && number.back() == '.') number.remove_suffix(1);
      return parse_whole(number, 1, most_times);
    };
    const std::optional<int> first = clean(item.substr(0, dash));
    const std::optional<int> last = dash == std::string_view::npos ? first : clean(item.substr(dash + 1));
    if (!first || !last) continue;
    for (int number = *first; number <= *last; ++number) numbers.push_back(number);
  }
  return numbers;
}

/// What words such as "D.S. al Coda" ask for.
enum class JumpWord { none, da_capo, dal_segno, to_coda, fine };

JumpWord jump_word(std::string_view text) {
  const std::vector<std::string> words = words_of(text);
  const auto starts = [&](std::string_view first, std::string_view second) {
    return words.size() >= 2 && words[0] == first && words[1] == second;
  };
  if (words.empty() || words.size() > 6) return JumpWord::none;
  if (starts("d", "c") || starts("da", "capo") || words[0] == "dc") return JumpWord::da_capo;
  if (starts("d", "s") || starts("dal", "segno") || words[0] == "ds") return JumpWord::dal_segno;
  if (starts("to", "coda") || starts("al", "coda")) return JumpWord::to_coda;
  return words.size() == 1 && words[0] == "fine" ? JumpWord::fine : JumpWord::none;
}

class SignReader {
 public:
  SignReader(std::size_t measures, Findings& findings) : findings_(findings), signs_(measures) {}

  void read_measure(std::size_t index, const pugi::xml_node& measure) {
    now_ = index;
    for (const pugi::xml_node element : measure.children()) {
      const std::string_view word = element.name();
      if (word == "barline") read_barline(element);
      if (word == "sound") read_sound(element);
      if (word == "direction") read_direction(element);
    }
  }

  std::vector<OrderSigns> finish() {
    settle_bare_codas();
    return std::move(signs_);
  }

 private:
  OrderSigns& here() { return signs_[now_]; }

  void read_barline(const pugi::xml_node& barline) {
    const std::string_view location = barline.attribute("location").as_string("right");
    if (barline.child("segno") || barline.attribute("segno")) {
      mark(signs_[now_].segnos, barline.attribute("segno").value());
    }
    if (barline.attribute("coda")) mark(here().codas, barline.attribute("coda").value());
    for (const pugi::xml_node ending : barline.children("ending")) read_ending(ending);
    const pugi::xml_node repeat = barline.child("repeat");
    if (!repeat) return;
    const bool forward = std::string_view(repeat.attribute("direction").value()) == "forward";
    if (location == "middle") {
      here().in_middle = true;
    } else if (forward) {
      // A sign at the end of a measure holds for the next one.
      const std::size_t starts = location == "left" ? now_ : now_ + 1;
      if (starts < signs_.size()) signs_[starts].forward = true;
    } else {
      OrderSigns& ends = location == "left" && now_ > 0 ? signs_[now_ - 1] : here();
      ends.backward = true;
      ends.after_jump = is_yes(repeat.attribute("after-jump"));
      read_times(repeat.attribute("times"), ends);
    }
  }

  void read_times(const pugi::xml_attribute& times, OrderSigns& ends) {
    if (!times) return;
    const std::optional<int> count = parse_whole(times.value(), 0, most_times);
    if (!count) {
      findings_.fault("a repeat of " + short_quote(times.value()) + " times is not one of up to 64");
      return;
    }
    // Some programs count the times it is gone back to; once in all is no repeat.
    ends.times = std::max(*count, 2);
  }

  void read_ending(const pugi::xml_node& ending) {
    const std::string_view type = ending.attribute("type").value();
    if (type == "start") {
      here().ending_starts = true;
      here().ending_numbers = numbers_in(ending.attribute("number").value());
    } else if (type == "stop" || type == "discontinue") {
      here().ending_stops = true;
    }
  }

  static void mark(std::vector<std::string>& names, std::string_view name) {
    if (std::ranges::find(names, name) == names.end()) names.emplace_back(name);
  }

  /// Whether the element says something of the order itself.
  bool read_sound(const pugi::xml_node& sound) {
    const auto named = [&](const char* attribute, std::vector<std::string>& names) {
      const pugi::xml_attribute found = sound.attribute(attribute);
      if (found) mark(names, found.value());
      return static_cast<bool>(found);
    };
    bool any = named("segno", here().segnos);
    any = named("coda", here().codas) || any;
    bool jump = named("dalsegno", here().dal_segno);
    jump = named("tocoda", here().to_coda) || jump;
    if (is_yes(sound.attribute("dacapo"))) here().da_capo = jump = true;
    const std::string_view fine = sound.attribute("fine").value();
    if (!fine.empty() && fine != "no") here().fine = jump = true;
    if (is_yes(sound.attribute("forward-repeat"))) here().forward = any = true;
    if (jump && sound.attribute("time-only")) here().jump_times = numbers_in(sound.attribute("time-only").value());
    return any || jump;
  }

  void read_direction(const pugi::xml_node& direction) {
    const pugi::xml_node sound = direction.child("sound");
    if (sound && read_sound(sound)) return;
    bool segno = false;
    bool coda = false;
    JumpWord jump = JumpWord::none;
    for (const pugi::xml_node type : direction.children("direction-type")) {
      if (type.child("segno")) segno = true;
      if (type.child("coda")) coda = true;
      for (const pugi::xml_node words : type.children("words")) {
        const JumpWord word = jump_word(text_of(words));
        if (word != JumpWord::none && jump == JumpWord::none) jump = word;
      }
    }
    if (jump == JumpWord::da_capo) here().da_capo = true;
    if (jump == JumpWord::dal_segno) here().dal_segno = {""};
    if (jump == JumpWord::to_coda) here().to_coda = {""};
    if (jump == JumpWord::fine) here().fine = true;
    if (jump != JumpWord::none) return;
    if (segno) mark(here().segnos, "");
    if (coda) bare_codas_.push_back(now_);
  }

  /// The same sign is drawn where one leaves for the coda and where the coda begins: without words or numbers the
  /// first of two is the one to leave at.
  void settle_bare_codas() {
    const bool some_leave = std::ranges::any_of(signs_, [](const OrderSigns& signs) { return !signs.to_coda.empty(); });
    const bool first_leaves = !some_leave && bare_codas_.size() >= 2;
    for (std::size_t i = 0; i < bare_codas_.size(); ++i) {
      OrderSigns& signs = signs_[bare_codas_[i]];
      if (i == 0 && first_leaves) {
        signs.to_coda = {""};
      } else {
        mark(signs.codas, "");
      }
    }
  }

  Findings& findings_;
  std::vector<OrderSigns> signs_;
  std::size_t now_ = 0;
  std::vector<std::size_t> bare_codas_;
};

bool any_jumps(const std::vector<OrderSigns>& signs) { return std::ranges::any_of(signs, &OrderSigns::jumps); }
bool any_repeats(const std::vector<OrderSigns>& signs) { return std::ranges::any_of(signs, &OrderSigns::repeats); }

void take_jumps(std::vector<OrderSigns>& signs, const std::vector<OrderSigns>& others) {
  for (std::size_t i = 0; i < signs.size(); ++i) {
    signs[i].segnos = others[i].segnos;
    signs[i].codas = others[i].codas;
    signs[i].da_capo = others[i].da_capo;
    signs[i].dal_segno = others[i].dal_segno;
    signs[i].to_coda = others[i].to_coda;
    signs[i].fine = others[i].fine;
    signs[i].jump_times = others[i].jump_times;
  }
}

}  // namespace

std::vector<OrderSigns> order_signs(const ScorePart& part, Findings& findings) {
  SignReader reader(part.contents.size(), findings);
  for (std::size_t i = 0; i < part.contents.size(); ++i) {
    const std::string number = clean_text(part.heads[i].attribute("number").value());
    findings.at_measure(number.empty() ? std::to_string(i + 1) : number);
    reader.read_measure(i, part.contents[i]);
  }
  findings.at_part();
  return reader.finish();
}

void add_signs_of_others(std::vector<OrderSigns>& signs, const std::vector<ScorePart>& parts, const ScorePart& chosen) {
  bool jumps = any_jumps(signs);
  bool repeats = any_repeats(signs);
  for (const ScorePart& part : parts) {
    if (jumps && repeats) return;
    if (part.id == chosen.id || part.contents.size() != signs.size()) continue;
    Findings unheard({}, part.id);
    std::vector<OrderSigns> others = order_signs(part, unheard);
    if (!repeats && any_repeats(others)) {
      if (jumps) take_jumps(others, signs);
      signs = std::move(others);
      repeats = true;
      jumps = any_jumps(signs);
    } else if (!jumps && any_jumps(others)) {
      take_jumps(signs, others);
      jumps = true;
    }
  }
}

}  // namespace fingerway
