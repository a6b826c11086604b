#include "background.hpp"

#include <exception>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "fingerway/base/errors.hpp"

namespace fingerway {
namespace {

/// Carries the thread out of work that nobody waits for any more.
class GivenUp : public std::exception {};

std::string failed(const std::vector<std::string>& messages) {
  const nlohmann::json json = {{"state", "failed"}, {"messages", messages}};
  return json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string failure(const std::exception& error) {
  std::vector<std::string> messages;
  if (const auto* input = dynamic_cast<const InputError*>(&error)) {
    for (const Fault& fault : input->faults()) messages.push_back(message(fault));
  } else if (const auto* file = dynamic_cast<const FileError*>(&error)) {
    messages.push_back(message(file->fault()));
  } else {
    messages.push_back(error.what());
  }
  return failed(messages);
}

}  // namespace

Background::Background(std::function<std::string(const ShareDone&)> work)
    : thread_([this, work = std::move(work)] { run(work); }) {}

Background::~Background() {
  given_up_ = true;
  thread_.join();
}

void Background::run(const std::function<std::string(const ShareDone&)>& work) {
  std::string answer;
  try {
    answer = work([this](double share) {
      if (given_up_) throw GivenUp();
      share_ = share;
    });
  } catch (const std::exception& error) {
    answer = failure(error);
  }
  const std::scoped_lock lock(mutex_);
  answer_ = std::move(answer);
}

std::string Background::answer() const {
  const std::scoped_lock lock(mutex_);
  if (!answer_.empty()) return answer_;
  return nlohmann::json({{"state", "working"}, {"share", share_.load()}}).dump();
}

}  // namespace fingerway
