# The rooms of the house (DEVELOPERS.md): who may include whom, where libraries may stand, how long a file may be;
# and that no two types have one name.
# Usage: cmake -D ROOT=<source folder> -P layers.cmake. Prints file:line: fault, and fails when there is one.
cmake_minimum_required(VERSION 3.25)

set(below_plan base music instrument mechanism motion search)
# part: parts it may include besides itself | libraries its .cpp files may include
set(base_rooms)
set(base_libraries fmt)
set(music_rooms base)
set(music_libraries fmt)
set(instrument_rooms base music)
set(mechanism_rooms base music instrument)
set(motion_rooms base music instrument)
set(search_rooms base)
set(search_libraries boost)
set(plan_rooms ${below_plan})
set(plan_libraries fmt)
set(decide_rooms ${below_plan} plan)
set(decide_libraries fmt)
set(read_rooms base music instrument motion)
set(read_libraries fmt pugixml yaml-cpp zip zlib)
set(report_rooms base music instrument mechanism motion plan decide)
set(report_libraries fmt nlohmann pugixml)
set(app_rooms ${below_plan} plan decide read report)
set(app_libraries CLI fmt httplib nlohmann posix)
set(parts ${app_rooms} app)
# Parts that compute and so never touch a file or a stream.
set(pure_parts ${below_plan} plan decide)
set(file_headers "<(fstream|iostream|istream|ostream|filesystem|cstdio)>")
# Libraries by the folder or name of their headers; posix stands for the system's own.
set(libraries fmt boost pugixml yaml-cpp zip zlib nlohmann CLI httplib posix)
set(posix_headers "^(sys/.*|arpa/.*|netinet/.*|unistd|fcntl|poll|signal|spawn)\\.h$")

set(longest_header 150)
set(longest_source 400)
# Files that may be longer, each with its reason.
set(long_files
    include/fingerway/instrument/instrument.hpp)  # one instrument's values, read as one list; no behaviour to split off

# Headers that may include a library, each with its reason.
set(library_headers
    src/app/serve/bounded_stream.hpp)  # it is a stream of the HTTP library

set(fault_count 0)
function(fault file line what)
  message("${file}:${line}: ${what}")
  math(EXPR fault_count "${fault_count} + 1")
  set(fault_count ${fault_count} PARENT_SCOPE)
endfunction()

# The line number of the first place where `needle` stands in `text`.
function(line_of needle text out)
  string(FIND "${text}" "${needle}" place)
  string(SUBSTRING "${text}" 0 ${place} before)
  string(REGEX MATCHALL "\n" newlines "${before}")
  list(LENGTH newlines count)
  math(EXPR count "${count} + 1")
  set(${out} ${count} PARENT_SCOPE)
endfunction()

foreach(part IN LISTS parts)
  file(GLOB files RELATIVE "${ROOT}" "${ROOT}/src/${part}/*.[ch]pp" "${ROOT}/src/${part}/*/*.[ch]pp"
       "${ROOT}/include/fingerway/${part}/*.hpp")
  foreach(file IN LISTS files)
    file(READ "${ROOT}/${file}" text)
    string(REGEX MATCHALL "\n" newlines "${text}")
    list(LENGTH newlines length)
    if(file MATCHES "\\.hpp$")
      set(limit ${longest_header})
    else()
      set(limit ${longest_source})
    endif()
    if(length GREATER limit AND NOT file IN_LIST long_files)
      fault(${file} ${length} "more than ${limit} lines (it is missing a noun: split it)")
    endif()

    # Types of one name in one namespace are taken for each other where both are in a program, without a word.
    if(file MATCHES "\\.hpp$")
      string(REGEX MATCHALL "\n(struct|class|enum|enum class|union) [A-Za-z0-9]+( final)?( :[^;{]*)? {" types "${text}")
      foreach(type IN LISTS types)
        string(REGEX REPLACE "^\n(struct|class|enum class|enum|union) ([A-Za-z0-9]+).*" "\\2" name "${type}")
        if(DEFINED "type_${name}")
          line_of("${type}" "${text}" line)
          math(EXPR line "${line} + 1")
          fault(${file} ${line} "another type is called ${name} (${type_${name}})")
        endif()
        set("type_${name}" "${file}")
      endforeach()
    endif()

    file(STRINGS "${ROOT}/${file}" includes REGEX "^[ \t]*#[ \t]*include")
    foreach(include IN LISTS includes)
      string(REGEX REPLACE "^[ \t]*#[ \t]*include[ \t]*([<\"][^>\"]*[>\"]).*" "\\1" header "${include}")
      string(REGEX REPLACE "[<>\"]" "" path "${header}")
      string(REGEX REPLACE "^fingerway/" "" ours "${path}")
      string(REGEX REPLACE "[/.].*" "" room "${ours}")  # the part, or the library
      if(path MATCHES "${posix_headers}")
        set(room posix)
      endif()
      set(what)
      if(ours MATCHES "/" AND room IN_LIST parts)
        if(NOT room STREQUAL part AND NOT room IN_LIST ${part}_rooms)
          set(what "${part} may not include ${room}")
        elseif(file MATCHES "^include/" AND path STREQUAL ours)
          set(what "a public header may not include a private one")
        endif()
      elseif(room IN_LIST libraries)
        if(file MATCHES "\\.hpp$" AND NOT file IN_LIST library_headers)
          set(what "a header may not include ${room}")
        elseif(NOT room IN_LIST ${part}_libraries)
          set(what "${part} may not include ${room}")
        endif()
      elseif(part IN_LIST pure_parts AND header MATCHES "${file_headers}")
        set(what "${part} may not include ${header} (only read and app touch files)")
      elseif(header MATCHES "^<.*[./]")
        set(what "unknown header ${header} (add it to the table in tools/cmake/layers.cmake, or leave it out)")
      endif()
      if(what)
        line_of("${include}" "${text}" line)
        fault(${file} ${line} "${what}")
      endif()
    endforeach()
  endforeach()
endforeach()

if(fault_count GREATER 0)
  message(FATAL_ERROR "${fault_count} faults; the table stands in tools/cmake/layers.cmake")
endif()
