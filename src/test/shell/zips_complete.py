"""The zips for systems that the program was not tried on hold what it needs there. Usage: zips_complete.py FOLDER"""

import io
import pathlib
import sys
import zipfile

# What JavaFX cannot start without, by system: its window, its fonts and its pipelines.
MAC = ["libglass.dylib", "libjavafx_font.dylib", "libprism_es2.dylib", "libprism_sw.dylib"]
SYSTEMS = {
    "windows": (["glass.dll", "javafx_font.dll", "prism_d3d.dll", "prism_sw.dll"], "bin/trebleproof.bat"),
    "mac-intel": (MAC, "bin/trebleproof.command"),
    "mac-apple": (MAC, "bin/trebleproof.command"),
}
WANTED = ["lib/trebleproof.jar", "lib/JTransforms.jar", "lib/picocli.jar", "LICENSE", "READ-ME-FIRST.txt"]

for system, (natives, starter) in SYSTEMS.items():
    file = pathlib.Path(sys.argv[1]) / f"trebleproof-{system}.zip"
    archive = zipfile.ZipFile(file)
    names = archive.namelist()
    missing = [n for n in [starter, *WANTED] if "Trebleproof/" + n not in names]
    foreign = [n for n in names if "linux" in n]
    held = []
    for name in names:
        if name.endswith(".jar") and "javafx" in name:
            held += zipfile.ZipFile(io.BytesIO(archive.read(name))).namelist()
    missing += [n for n in natives if n not in held]
    if missing or foreign:
        sys.exit(f"{file}: missing {missing}, of another system {foreign}")
    print(f"{file.name}: complete, {file.stat().st_size} bytes; untried on that system")
