"""``python -m arrange``: the command line, for where its script is not on the path."""

from arrange.cli import main

if __name__ == "__main__":
    main(prog_name="arrange")
