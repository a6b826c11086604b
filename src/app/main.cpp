#include <iostream>

#include "command_line.hpp"

int main(int argc, char** argv) { return fingerway::run_command_line(argc, argv, std::cout, std::cerr); }
