# Writes one of the files the program makes of its own commands: cmake -D PROGRAM= -D WHAT= -D FILE= -P reference.cmake
execute_process(COMMAND "${PROGRAM}" reference "${WHAT}" OUTPUT_VARIABLE text COMMAND_ERROR_IS_FATAL ANY)
file(WRITE "${FILE}" "${text}")
