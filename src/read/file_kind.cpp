#include "fingerway/read/file_kind.hpp"

#include "yaml_tree.hpp"

namespace fingerway {

std::string file_kind(const std::filesystem::path& file) {
  const YamlNode root = load_yaml(file);
  for (std::size_t i = 0; i < root.keys.size(); ++i) {
    if (root.keys[i].text == "fingerway") return root.items[i].text;
  }
  return {};
}

}  // namespace fingerway
