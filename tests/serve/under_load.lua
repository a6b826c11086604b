-- For wrk: asks for a file, the catalogue and a plan in turn, and counts what does not come back as it came back alone;
-- of a plan all that follows its token. Argument: the folder with what is expected.
local threads = {}

function setup(thread)
  table.insert(threads, thread)
  thread:set("number", #threads)
end

local function content(folder, name)
  local file = assert(io.open(folder .. "/" .. name, "rb"))
  local text = file:read("*a")
  file:close()
  return text
end

function init(arguments)
  local folder = arguments[1]
  page, program = content(folder, "page"), content(folder, "program")
  plan, planned = content(folder, "plan"), content(folder, "planned")
  asked, right, wrong = 0, 0, 0
end

function request()
  asked = asked + 1
  if asked % 3 == 0 then
    return wrk.format("POST", "/api/plan", {["Content-Type"] = "application/json"}, plan)
  end
  return wrk.format("GET", asked % 3 == 1 and "/page/page.js" or "/api/program")
end

function response(status, headers, body)
  local good = status == 200 and (body == page or body == program or body:sub(-#planned) == planned)
  if good then right = right + 1 else wrong = wrong + 1 end
end

function done(summary)
  local right, wrong = 0, 0
  for _, thread in ipairs(threads) do
    right = right + thread:get("right")
    wrong = wrong + thread:get("wrong")
  end
  local e = summary.errors
  io.write(string.format("right=%d wrong=%d lost=%d\n", right, wrong, e.connect + e.read + e.write + e.timeout))
end
