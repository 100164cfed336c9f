# One function that configures a build folder, however it was left. Sourced by ui/start and tests/run.

# configure FOLDER PRESET [-DNAME=VALUE]...: a folder that another checkout made, or whose first configure failed, is made anew.
configure() {
  local folder=$1 preset=$2 home=''
  shift 2
  if [ -f "$folder/CMakeCache.txt" ]; then
    home=$(sed -n 's/^CMAKE_HOME_DIRECTORY:INTERNAL=//p' "$folder/CMakeCache.txt")
    if [ ! -f "$folder/build.ninja" ] || [ "$home" != "$PWD" ]; then
      echo "$folder was made for another place or never finished: it is made anew"
      rm -rf "$folder/CMakeCache.txt" "$folder/CMakeFiles" "$folder/build.ninja"
    fi
  fi
  cmake -C ".presets/$preset.cmake" -S . -B "$folder" -G Ninja "$@"
}
