"""JupyterLab as a program, started the quick way."""

from gardenlib.quick import no_web_grammar

with no_web_grammar():
    from jupyterlab.labapp import main

if __name__ == "__main__":
    main()
