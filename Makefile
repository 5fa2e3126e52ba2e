PYTHON ?= python3

.PHONY: demo test lint check setup
demo test lint check setup:
	@$(PYTHON) dev.py $@ $(ARGS)
