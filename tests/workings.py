"""The arithmetic of an explanation, done again."""

from counterpoise.checks.working import Working


def done(one: Working) -> float:
    """What its steps come to, done one after the other."""
    value = 0.0
    for step in one.steps:
        match step.sign:
            case "":
                value = step.value
            case "+":
                value += step.value
            case "−":
                value -= step.value
            case "×":
                value *= step.value
            case "÷":
                value /= step.value
    return value
