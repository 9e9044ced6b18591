"""`python -m handouts`: the same as the `handouts` command."""

from handouts.cli import run

if __name__ == "__main__":
    run()
