#!/usr/bin/env bash
# Fuzzes one target for long, guided by the branches that inputs reach. From anywhere in the repository:
#
#   tests/Clackbeat.Fuzz/fuzz.sh TARGET [EXECUTIONS] [MINUTES]    in one process; needs the .NET SDK alone
#   tests/Clackbeat.Fuzz/fuzz.sh --afl TARGET [MINUTES]           by AFL++ (Debian: apt-get install afl++)
#
# TARGET is one of the names in Targets.cs. Left out: 10 million executions, 600 minutes, whatever ends first.
# Builds into artifacts/fuzz, instruments the assemblies there, writes failing inputs to artifacts/fuzz/broken (or AFL's
# own artifacts/fuzz/afl-TARGET/default/crashes), and ends with 1 when there is one.
set -euo pipefail
cd "$(dirname "$0")/../.."

afl=false
if [ "${1:-}" = --afl ]; then afl=true; shift; fi
target=${1:?name a target of Targets.cs}
out=$PWD/artifacts/fuzz
bin=$out/bin

# CLACKBEAT_FUZZ_KEEP=1 takes the assemblies of the last run, so that several targets can run side by side.
if [ -z "${CLACKBEAT_FUZZ_KEEP:-}" ]; then
  rm -rf "$bin"
  dotnet tool restore >/dev/null
  dotnet publish tests/Clackbeat.Fuzz -c Release -o "$bin" -v q -nologo
  for name in Clackbeat.{Protocol,Recording,Records,Signal,Site,Sensing,Hydraulics,Season,Unattended,Planning,Tuning,Twin,VirtualRam} Tomlyn Sep ExcelDataReader; do
    dotnet sharpfuzz "$bin/$name.dll"
  done
fi

# Fewer collections of garbage, half as many runs again; and memory that ends where a reader should have ended long before.
export DOTNET_GCgen0size=4000000 DOTNET_GCHeapHardLimit=40000000

if ! $afl; then
  exec dotnet "$bin/Clackbeat.Fuzz.dll" run "$target" "${2:-10000000}" "${3:-600}" "$out/broken"
fi

dotnet "$bin/Clackbeat.Fuzz.dll" seeds "$target" "$out/seeds-$target"
# The program is no binary of AFL's compiler, the map is the classical one, and a container may forbid core patterns.
export AFL_SKIP_BIN_CHECK=1 AFL_MAP_SIZE=65536 AFL_NO_UI=1 AFL_SKIP_CPUFREQ=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1
afl-fuzz -i "$out/seeds-$target" -o "$out/afl-$target" -m none -t 5000 -V "$((${2:-600} * 60))" -- \
  dotnet "$bin/Clackbeat.Fuzz.dll" afl "$target"
grep -E "execs_done|execs_per_sec|saved_crashes|saved_hangs" "$out/afl-$target/default/fuzzer_stats"
grep -q "saved_crashes *: 0$" "$out/afl-$target/default/fuzzer_stats"
