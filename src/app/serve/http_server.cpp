#include "http_server.hpp"

#include <httplib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <nlohmann/json.hpp>
#include <set>
#include <thread>
#include <vector>

#include "bounded_stream.hpp"
#include "fingerway/base/errors.hpp"
#include "guard.hpp"

namespace fingerway {
namespace {

/// They mostly wait for senders, and a slow or silent one holds its thread: there must be more threads than anybody has
/// slow senders. Planning takes turns (turn.hpp).
constexpr std::size_t worker_threads = 400;
constexpr std::size_t longest_queue = 256;
constexpr int waiting_connections = 256;
constexpr std::size_t longest_path = 1'000;
/// What is too large is read to its end up to here, so that the sender gets to read why it is refused.
constexpr std::size_t most_drained = std::size_t{256} << 20U;

/// A fixed number of threads, and a bounded queue before them: who accepts connections waits while it is full.
class BoundedQueue : public httplib::TaskQueue {
 public:
  BoundedQueue() {
    for (std::size_t i = 0; i < worker_threads; ++i) threads_.emplace_back([this] { work(); });
  }

  void enqueue(std::function<void()> task) override {
    std::unique_lock lock(mutex_);
    room_.wait(lock, [this] { return tasks_.size() < longest_queue; });
    tasks_.push_back(std::move(task));
    some_.notify_one();
  }

  void shutdown() override {
    {
      const std::scoped_lock lock(mutex_);
      over_ = true;
    }
    some_.notify_all();
    threads_.clear();
  }

 private:
  void work() {
    for (;;) {
      std::unique_lock lock(mutex_);
      some_.wait(lock, [this] { return over_ || !tasks_.empty(); });
      if (tasks_.empty()) return;
      const std::function<void()> task = std::move(tasks_.front());
      tasks_.pop_front();
      lock.unlock();
      room_.notify_one();
      task();
    }
  }

  std::mutex mutex_;
  std::condition_variable some_;
  std::condition_variable room_;
  std::deque<std::function<void()>> tasks_;
  bool over_ = false;
  std::vector<std::jthread> threads_;
};

httplib::Headers guarding_headers() {
  return {{"Cache-Control", "no-store"},
          {"Content-Security-Policy",
           "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; img-src "
           "'self' data: blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
          {"X-Content-Type-Options", "nosniff"},
          {"Referrer-Policy", "no-referrer"},
          {"Cross-Origin-Opener-Policy", "same-origin"},
          {"Cross-Origin-Resource-Policy", "same-origin"}};
}

std::string error_json(const std::vector<std::string>& messages) {
  const nlohmann::json json = {{"error", {{"messages", messages}}}};
  return json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

/// Sends a body as it is: the library would pack plain content at its full strength, which takes far longer than
/// sending it to the same machine.
void set_body(httplib::Response& response, std::string body, const std::string& type) {
  if (body.empty()) {
    response.set_content("", type);
    return;
  }
  const auto kept = std::make_shared<const std::string>(std::move(body));
  response.set_content_provider(kept->size(), type,
                                [kept](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
                                  return sink.write(kept->data() + offset, length);
                                });
}

void refuse(httplib::Response& response, int status, const std::vector<std::string>& messages) {
  response.status = status;
  set_body(response, error_json(messages), "application/json");
}

/// A file name for a header: plain ASCII, and the real one beside it (RFC 6266).
std::string disposition(const std::string& name) {
  static constexpr std::string_view digits = "0123456789ABCDEF";
  std::string plain;
  std::string coded;
  for (char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    const bool safe =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
    plain += safe || c == ' ' ? c : '_';
    if (safe) {
      coded += c;
    } else {
      coded += '%';
      coded += digits[byte >> 4U];
      coded += digits[byte & 0xFU];
    }
  }
  return "attachment; filename=\"" + plain + "\"; filename*=UTF-8''" + coded;
}

void send(httplib::Response& response, Answer answer) {
  response.status = answer.status;
  if (!answer.file_name.empty()) response.set_header("Content-Disposition", disposition(answer.file_name));
  set_body(response, std::move(answer.body), answer.type);
}

/// Says why the library itself turned a request down.
void explain(const httplib::Request& request, httplib::Response& response) {
  const int status = response.status;
  if (status == 404) return refuse(response, status, {"no such page: " + request.path.substr(0, 100)});
  if (status == 413 || status == 414) return refuse(response, status, {"the request is too long"});
  if (status == 400) {
    return refuse(response, status,
                  {"this is no whole request in HTTP (first line, fields, body as long as they say)"});
  }
  refuse(response, status, {"this request cannot be answered here (HTTP status " + std::to_string(status) + ")"});
}

/// Answers with what `work` gives, or with the fault's own sentences.
void answer_with(httplib::Response& response, const std::function<Answer()>& work) {
  try {
    send(response, work());
  } catch (const InputError& error) {
    std::vector<std::string> messages;
    for (const Fault& fault : error.faults()) messages.push_back(message(fault));
    refuse(response, 400, messages);
  } catch (const Gone& error) {
    refuse(response, 410, {error.what()});
  } catch (const FileError& error) {
    refuse(response, 500, {message(error.fault())});
  } catch (const Stopping& error) {
    refuse(response, 503, {error.what()});
  } catch (const std::bad_alloc&) {
    refuse(response, 503, {"not enough memory for this score (plan fewer bars)"});
  } catch (const std::exception& error) {
    refuse(response, 500,
           {"a fault in fingerway itself: " + std::string(error.what()) + " (report it, with what was asked for)"});
  }
}

/// Reads and answers within bounds (bounded_stream.hpp), and leaves a connection at once when the server stops.
class BoundedServer : public httplib::Server {
 public:
  explicit BoundedServer(const StreamLimits& limits) : limits_(limits) {}

  /// From now on nothing more is read, and no request begun.
  void give_up() { over_ = true; }
  [[nodiscard]] bool given_up() const { return over_; }

 private:
  bool process_and_close_socket(socket_t made) override {
    bool answered = false;
    if (!over_) {
      BoundedStream stream(made, limits_, over_);
      bool closed = false;
      // One request a connection: a body that was refused unread can then never be taken for a request.
      answered = process_request(stream, true, closed, nullptr);
      stream.finish();
    }
    ::close(made);
    return answered;
  }

  StreamLimits limits_;
  std::atomic<bool> over_ = false;
};

using BodyWork = std::function<Answer(const httplib::Request&, std::string)>;

}  // namespace

struct HttpServer::Listener {
  Listener(Service& asked, const StreamLimits& limits) : service(asked), server(limits) {
    server.new_task_queue = [] { return new BoundedQueue; };
    server.set_payload_max_length(most_drained);
    server.set_tcp_nodelay(true);
    server.set_default_headers(guarding_headers());
    // The library would let a second program listen on the same port.
    server.set_socket_options([this](socket_t made) {
      const int yes = 1;
      static_cast<void>(::setsockopt(made, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof(yes)));
      socket = made;
    });
    server.set_error_handler([](const httplib::Request& request, httplib::Response& response) {
      if (!response.body.empty() || response.content_length_ > 0) return;
      explain(request, response);
    });
    // What nobody answers is refused before its body is read.
    server.set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& response) {
      if (request.path.size() > longest_path) {
        refuse(response, 414, {"the path is longer than any page's"});
      } else if (request.method == "POST" && !asked_paths.contains(request.path)) {
        refuse(response, 404, {"no such request: " + request.path.substr(0, 100)});
      } else if (request.method == "POST" && request.has_header("Transfer-Encoding")) {
        refuse(response, 411, {"the body must come with its length (Content-Length)"});
      } else if (request.method != "POST" && request.method != "GET" && request.method != "HEAD") {
        refuse(response, 405, {"only GET, HEAD and POST are answered"});
      } else {
        return httplib::Server::HandlerResponse::Unhandled;
      }
      return httplib::Server::HandlerResponse::Handled;
    });
    pages();
    questions();
  }

  void pages() {
    get("/", [this](const std::string&) { return service.file("page", "index.html"); });
    for (const std::string folder : {"page", "engraver", "guide"}) {
      get("/" + folder + "/(.+)", [this, folder](const std::string& path) { return service.file(folder, path); });
    }
    get("/lanes.css", [](const std::string&) { return Service::lanes_style(); });
    get("/report.css", [](const std::string&) { return Service::report_style(); });
    get("/api/program", [this](const std::string&) { return service.program(); });
    get("/api/repertoire", [this](const std::string&) { return service.repertoire(); });
    get("/api/roster", [this](const std::string&) { return service.roster(); });
  }

  void questions() {
    const ServiceLimits& limits = service.limits();
    post("/api/scores", limits.upload_bytes, [this](const httplib::Request& request, std::string body) {
      return service.bring_score(request.get_param_value("name"), std::move(body));
    });
    ask("/api/demo", &Service::bring_demo);
    ask("/api/score", &Service::score_again);
    ask("/api/engraving", &Service::engraving);
    ask("/api/plan", &Service::plan);
    ask("/api/lanes", &Service::lanes);
    ask("/api/note", &Service::note);
    ask("/api/trills", &Service::trills);
    ask("/api/trill", &Service::trill);
    ask("/api/choices/read", &Service::read_choices);
    ask("/api/roster/sheet", &Service::roster_sheet);
    post("/api/save", limits.save_bytes,
         [this](const httplib::Request&, const std::string& body) { return service.save(body); });
  }

  [[nodiscard]] bool may_pass(const httplib::Request& request, httplib::Response& response) const {
    const auto why = refused(request.get_header_value("Host"), request.get_header_value("Origin"), names);
    if (why) refuse(response, 403, {*why});
    return !why;
  }

  void get(const std::string& pattern, const std::function<Answer(const std::string&)>& work) {
    server.Get(pattern, [this, work](const httplib::Request& request, httplib::Response& response) {
      if (!may_pass(request, response)) return;
      const std::string rest = request.matches.size() > 1 ? request.matches[1].str() : std::string();
      answer_with(response, [&] { return work(rest); });
    });
  }

  /// Bodies are JSON unless they are a score's bytes; forms, which any page may send unasked, never are.
  void post(const std::string& path, std::size_t most, const BodyWork& work) {
    asked_paths.insert(path);
    server.Post(path, [this, most, work](const httplib::Request& request, httplib::Response& response,
                                         const httplib::ContentReader& reader) {
      if (request.is_multipart_form_data()) {
        refuse(response, 415, {"forms are not read here (send the file or the JSON itself)"});
        return;
      }
      std::string body;
      std::size_t all = 0;
      const bool whole = reader([&](const char* data, std::size_t length) {
        all += length;
        if (all <= most) body.append(data, length);
        return all <= most_drained;
      });
      if (!may_pass(request, response)) return;
      if (!whole && all <= most) {
        refuse(response, 400, {"the request's body did not arrive whole, or took too long"});
        return;
      }
      if (all > most) {
        refuse(response, 413, {"larger than " + std::to_string(most >> 20U) + " MiB"});
        return;
      }
      answer_with(response, [&] { return work(request, std::move(body)); });
    });
  }

  template <class Method>
  void ask(const std::string& path, Method method) {
    post(path, service.limits().json_bytes, [this, method](const httplib::Request& request, const std::string& body) {
      if (!request.get_header_value("Content-Type").starts_with("application/json")) {
        return Answer{.status = 415, .body = error_json({"the body must be JSON (Content-Type: application/json)"})};
      }
      return (service.*method)(body);
    });
  }

  Service& service;
  BoundedServer server;
  std::set<std::string> asked_paths;
  socket_t socket = -1;
  std::vector<std::string> names;
  std::thread thread;
};

HttpServer::HttpServer(Service& service, const HttpOptions& options)
    : listener_(std::make_unique<Listener>(service, options.limits)) {
  const std::string host = options.allow_host.empty() ? "127.0.0.1" : "0.0.0.0";
  if (options.port == 0) {
    port_ = listener_->server.bind_to_any_port(host);
  } else if (listener_->server.bind_to_port(host, options.port)) {
    port_ = options.port;
  }
  if (port_ <= 0) {
    throw FileError("port " + std::to_string(options.port), "cannot be listened on",
                    "another program has it; choose another with --port, or 0 for any");
  }
  // The library lets only five connections wait.
  static_cast<void>(::listen(listener_->socket, waiting_connections));
  listener_->names = own_names(port_, options.allow_host);
  listener_->thread = std::thread([this] { listener_->server.listen_after_bind(); });
  while (!listener_->server.is_running()) std::this_thread::yield();
}

HttpServer::~HttpServer() {
  listener_->server.give_up();
  listener_->service.stop();
  listener_->server.stop();
  listener_->thread.join();
}

std::string HttpServer::address() const { return "http://127.0.0.1:" + std::to_string(port_) + "/"; }

}  // namespace fingerway
