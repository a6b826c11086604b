// What this part answers: whether JSON of ours meets its schema in tools/schema, asked of Debian's python3-jsonschema.
#pragma once

#include <cstdlib>
#include <string>

#include "support/scratch_folder.hpp"

namespace fingerway {

/// JSON texts being gathered, then held against their schemas in one run.
class JsonSchemaCheck {
 public:
  JsonSchemaCheck() {
    for (const char* python : {"/usr/bin/python3", "python3"}) {
      if (std::system((std::string(python) + " -c 'import jsonschema' >/dev/null 2>&1").c_str()) != 0) continue;
      command_ = std::string(python) + " " + (project_folder() / "tests/report/json_schemas.py").string() + " " +
                 (project_folder() / "tools/schema").string();
      return;
    }
  }

  /// False where no Python has the package: the test says that it is skipped.
  [[nodiscard]] bool possible() const { return !command_.empty(); }
  void add(const std::string& schema, const std::string& text) {
    command_ += " " + schema + "=" + folder_.write(std::to_string(++number_) + ".json", text).string();
  }
  [[nodiscard]] bool all_meet_their_schemas() const { return std::system(command_.c_str()) == 0; }
  /// The same without a word about what is wrong.
  [[nodiscard]] bool quietly() const { return std::system((command_ + " >/dev/null").c_str()) == 0; }

 private:
  ScratchFolder folder_;
  std::string command_;
  int number_ = 0;
};

}  // namespace fingerway
