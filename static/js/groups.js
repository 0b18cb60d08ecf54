// A long row of boxes is one stop for the Tab key: arrows go along it, space ticks. Twelve hours
// five times over would else be sixty stops. Without scripts each box is a stop of its own.

const BACK = new Set(["ArrowLeft", "ArrowUp"]);
const FORTH = new Set(["ArrowRight", "ArrowDown"]);

const boxesOf = (group) => [...group.querySelectorAll('input[type="checkbox"]')];

function stopAt(boxes, stop) {
  for (const box of boxes) box.tabIndex = box === stop ? 0 : -1;
}

function begin(root) {
  for (const group of root.querySelectorAll(".choices")) {
    const boxes = boxesOf(group);
    if (boxes.length) stopAt(boxes, boxes.find((box) => box.checked) || boxes[0]);
  }
}

// "None of these" and the others rule one another out: the last one ticked counts.
function ruleOut({ target }) {
  const group = target.matches('input[type="checkbox"]:checked') && target.closest(".choices");
  if (!group) return;
  for (const box of boxesOf(group)) {
    if (box !== target && (box.value === "none") !== (target.value === "none")) box.checked = false;
  }
}

export function watchGroups(form) {
  // Before other listeners run, so that they read the final state.
  form.addEventListener("input", ruleOut, true);
  begin(form);
  for (const template of form.querySelectorAll("template")) begin(template.content);
  form.addEventListener("focusin", ({ target }) => {
    const group = target.matches('input[type="checkbox"]') && target.closest(".choices");
    if (group) stopAt(boxesOf(group), target);
  });
  form.addEventListener("keydown", (event) => {
    const { target, key } = event;
    const group = target.matches('input[type="checkbox"]') && target.closest(".choices");
    if (!group || !(BACK.has(key) || FORTH.has(key))) return;
    event.preventDefault();
    const boxes = boxesOf(group);
    const step = BACK.has(key) ? -1 : 1;
    boxes[(boxes.indexOf(target) + step + boxes.length) % boxes.length].focus();
  });
}
