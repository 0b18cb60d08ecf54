"""The choice as rules of CLIPS, a general rule engine (Rete, in C; package clipspy).

The rules are those of the search: an option of a group that meets no more at no less cost than
another never earns its place; of two partial combinations that meet the same the cheaper goes on;
each goes on with every option of the next group; at the end the stated order decides. The engine
is handed the options ready made and its rules compiled, which favours it.
"""

from __future__ import annotations

from typing import Any, Final

import clips

from tests.benchmarks.choice import Best, Choice

_TEMPLATES: Final = (
    "(defglobal ?*best* = (create$))",
    "(deftemplate option (slot group) (slot id) (slot cost) (multislot met))",
    "(deftemplate way (slot level) (slot cost) (multislot met))",
    "(deftemplate end (slot level) (multislot must) (multislot may))",
    "(deftemplate result (slot essential) (slot other) (slot cost))",
)
_RULES: Final = (
    """(defrule option-is-dominated
        (declare (salience 30))
        (option (group ?g) (id ?a) (cost ?low) (met $?more))
        ?worse <- (option (group ?g) (id ?b&~?a) (cost ?high) (met $?less))
        (test (and (or (< ?low ?high) (and (= ?low ?high) (< ?a ?b))) (subsetp ?less ?more)))
        =>
        (retract ?worse))""",
    """(defrule way-is-dominated
        (declare (salience 20))
        ?better <- (way (level ?l) (cost ?low) (met $?more))
        ?worse <- (way (level ?l) (cost ?high) (met $?less))
        (test (and (neq ?better ?worse) (<= ?low ?high) (subsetp ?less ?more)))
        =>
        (retract ?worse))""",
    """(defrule way-goes-on
        (way (level ?l) (cost ?c) (met $?m))
        (option (group ?g&:(= ?g ?l)) (cost ?k) (met $?n))
        =>
        (assert (way (level (+ ?l 1)) (cost (+ ?c ?k)) (met (union$ ?m ?n)))))""",
    """(defrule way-is-whole
        (declare (salience -10))
        (end (level ?l) (must $?must) (may $?may))
        (way (level ?l) (cost ?c) (met $?m))
        =>
        (assert (result (essential (length$ (difference$ ?must ?m)))
                        (other (length$ (difference$ ?may ?m))) (cost ?c))))""",
    """(defrule result-is-worse
        (declare (salience 10))
        ?a <- (result (essential ?e1) (other ?o1) (cost ?c1))
        ?b <- (result (essential ?e2) (other ?o2) (cost ?c2))
        (test (or (< ?e1 ?e2) (and (= ?e1 ?e2) (or (< ?o1 ?o2) (and (= ?o1 ?o2) (< ?c1 ?c2))))))
        =>
        (retract ?b))""",
    """(defrule result-is-best
        (declare (salience -20))
        (result (essential ?e) (other ?o) (cost ?c))
        =>
        (bind ?*best* (create$ ?e ?o ?c)))""",
)


class Engine:
    """Rules compiled once; every choice starts from empty facts."""

    def __init__(self) -> None:
        self._environment: Any = clips.Environment()
        for construct in (*_TEMPLATES, *_RULES):
            self._environment.build(construct)
        # Level by level: then cheaper ways oust others before those are carried on.
        self._environment.eval("(set-strategy breadth)")

    def choose(self, choice: Choice) -> Best:
        """The best as the rules find it."""
        environment = self._environment
        environment.reset()
        environment.load_facts(_facts(choice))
        environment.run()
        return Best(*environment.eval("?*best*"))


def _facts(choice: Choice) -> str:
    """A fact for every option, where to begin and where to end."""
    lines = [
        f"(option (group {number}) (id {i}) (cost {option.cost}) (met {_symbols(option.met)}))"
        for number, group in enumerate(choice.groups)
        for i, option in enumerate(group)
    ]
    must, may = _symbols(choice.must), _symbols(choice.may)
    lines.append(f"(end (level {len(choice.groups)}) (must {must}) (may {may}))")
    return "\n".join([*lines, "(way (level 0) (cost 0) (met))"])


def _symbols(bits: int) -> str:
    """A symbol for every need, as the engine has no sets of bits."""
    return " ".join(f"n{i}" for i in range(bits.bit_length()) if bits >> i & 1)
