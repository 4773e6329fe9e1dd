"""Runs every `gallipot ...` line of README.md's shell blocks, in order, in an empty folder, as a reader
would; and sees that every command of the program is shown there or in --help's list.

  readme_commands.py PROGRAM SOURCE
"""
import os
import re
import shlex
import signal
import subprocess
import sys
import tempfile
import time

program, source = os.path.realpath(sys.argv[1]), os.path.realpath(sys.argv[2])
readme = open(os.path.join(source, "README.md"), encoding="utf-8").read()
shell = [line for block in re.findall(r"^```sh\n(.*?)^```", readme, re.S | re.M) for line in block.splitlines()]
commands = [shlex.split(line, comments=True)[1:] for line in shell if line.startswith("gallipot ")]

# What a reader has before a line is run.
visits = "station,time,by,seen,dead,level_percent,state,did,note\nK1,2027-03-02 17:00,Kim,20,,,,,\n"
files = {"visits.csv": visits}


def serve(arguments, folder):
    """Until it says where it is; then as Ctrl-C ends it."""
    arguments = [a.replace("0.0.0.0:8017", "127.0.0.1:0") for a in arguments]
    server = subprocess.Popen([program, *arguments], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    said = server.stdout.readline()
    time.sleep(0.3)
    server.send_signal(signal.SIGINT)
    rest, _ = server.communicate(timeout=20)
    return server.returncode, said + rest


faults, run = [], set()
with tempfile.TemporaryDirectory() as folder:
    for name, text in files.items():
        with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
            file.write(text)
    for arguments in commands:
        if arguments[0] == "serve":
            code, said = serve(arguments, folder)
        else:
            done = subprocess.run([program, *arguments], cwd=folder, capture_output=True, text=True, timeout=120, check=False)
            code, said = done.returncode, done.stdout + done.stderr
        run.add(arguments[0])
        if code != 0:
            faults.append(f"gallipot {shlex.join(arguments)}: exit {code}\n{said[-1500:]}")
    for arguments in commands:  # files that a line says it writes are there
        for option in ("-o", "--backup", "--calendar"):
            if option in arguments:
                path = os.path.join(folder, arguments[arguments.index(option) + 1])
                if not os.path.exists(path):
                    faults.append(f"gallipot {shlex.join(arguments)}: {path} is not there")

# Words of the program that README names in passing are words of the program.
listed = subprocess.run([program, "--help"], capture_output=True, text=True, check=True).stdout
known = set(re.findall(r"^  ([a-z]+) +\S", listed, re.M))
for name in re.findall(r"`gallipot ([a-z]+)", readme):
    if name not in known:
        faults.append(f"README.md names `gallipot {name}`, which --help does not list")
print(f"{len(commands)} lines of README.md were run: {', '.join(sorted(run))}")
print("\n".join(faults))
sys.exit(1 if faults or len(commands) < 10 else 0)
