#include <catch2/catch.hpp>
#include <pugixml.hpp>
#include <regex>
#include <set>

#include "fingerway/report/page.hpp"
#include "report/toy_report.hpp"

using namespace fingerway;

namespace {

Passage odd_passage() {
  Passage passage = toy_passage(Qpm(2000), Attack::slurred);
  passage.title = "Jig & <b>reel</b> \"no. 1\"";
  passage.notes[2].kind = NoteKind::trill;
  passage.notes[2].other = Spelling{'B', 0, 3};
  return passage;
}

std::vector<std::string> pages() {
  const Played stock = toy_played(toy_instrument());
  const Played linked = toy_played(linked_toy());
  const Passage passage = odd_passage();
  return {plan_page(stock, passage, plan_passage(stock, passage, {})),
          compare_page(stock, linked, passage, compare(stock, linked, passage, {}))};
}

std::vector<std::string> all_matches(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::vector<std::string> found;
  for (std::sregex_iterator it(text.begin(), text.end(), regex), end; it != end; ++it) found.push_back((*it)[1].str());
  return found;
}

}  // namespace

TEST_CASE("a page asks for nothing outside itself and runs no script") {
  for (const std::string& page : pages()) {
    CHECK(page.find("default-src 'none'") != std::string::npos);
    for (const char* forbidden_text :
         {"<script", "http:", "https:", "src=", "@import", "<link", "<iframe", " style=", " onclick", "javascript:"}) {
      INFO(forbidden_text);
      CHECK(page.find(forbidden_text) == std::string::npos);
    }
    // The only url() is the hatching pattern of the page itself.
    for (const std::string& url : all_matches(page, "url\\(([^)]*)\\)")) CHECK(url == "#hatching");
  }
}

TEST_CASE("text from the score is shown as text") {
  for (const std::string& page : pages()) {
    CHECK(page.find("<b>reel</b>") == std::string::npos);
    CHECK(page.find("Jig &amp; &lt;b&gt;reel&lt;/b&gt; &quot;no. 1&quot;") != std::string::npos);
  }
}

TEST_CASE("every picture of a page is well-formed XML with a name for those who do not see it") {
  for (const std::string& page : pages()) {
    std::size_t systems = 0;
    for (std::size_t at = page.find("<svg"); at != std::string::npos; at = page.find("<svg", at + 1)) {
      const std::size_t end = page.find("</svg>", at) + 6;
      pugi::xml_document svg;
      const auto result = svg.load_string(page.substr(at, end - at).c_str());
      INFO(result.description());
      CHECK(result.status == pugi::status_ok);
      const pugi::xml_node root = svg.child("svg");
      const bool named = *root.attribute("aria-label").value() != '\0' && root.child("title");
      const bool hidden = std::string(root.attribute("aria-hidden").value()) == "true";
      CHECK(named != hidden);
      systems += named ? 1 : 0;
    }
    CHECK(systems == 1);
  }
}

TEST_CASE("every link of a page leads to a place on it and no place is named twice") {
  for (const std::string& page : pages()) {
    const auto ids = all_matches(page, " id=\"([^\"]*)\"");
    const std::set<std::string> places(ids.begin(), ids.end());
    CHECK(places.size() == ids.size());
    const auto links = all_matches(page, "href=\"#([^\"]*)\"");
    CHECK_FALSE(links.empty());
    for (const std::string& link : links) {
      INFO(link);
      CHECK(places.contains(link));
    }
  }
}

TEST_CASE("a page says what does not fit, what is gained and lost, and to take care") {
  const auto both = pages();
  CHECK(both[0].find("It does not fit the tempo.") != std::string::npos);
  CHECK(both[0].find("sets the ceiling") != std::string::npos);
  CHECK(both[1].find("Fingerings gained for the notes of this passage") != std::string::npos);
  CHECK(both[1].find("Fingerings lost for the notes of this passage") != std::string::npos);
  for (const std::string& page : both) CHECK(page.find("stop on pain or numbness") != std::string::npos);
}

TEST_CASE("a passage without notes still makes a page") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(120), Attack::slurred);
  passage.notes.clear();
  CHECK(plan_page(toy, passage, {Plan{}}).find("</html>") != std::string::npos);
}
