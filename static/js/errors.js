// What the server found wrong, put beside each field and listed on top.

function wrapperOf(name) {
  return document.getElementById(`div_id_${name}`);
}

// A fold may lie in another: a field is in sight only when all of them are open.
function openFolds(element) {
  for (let fold = element.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
}

function clear(form) {
  for (const old of form.querySelectorAll(".field-errors")) old.remove();
  for (const old of form.querySelectorAll(".has-error")) old.classList.remove("has-error");
  for (const old of form.querySelectorAll("[aria-invalid=true]")) old.removeAttribute("aria-invalid");
}

function beside(name, messages) {
  const wrapper = wrapperOf(name);
  if (!wrapper) return;
  const box = document.createElement("div");
  box.className = "field-errors";
  box.id = `id_${name}_error`;
  for (const message of messages) {
    const line = document.createElement("p");
    line.className = "field-error";
    line.textContent = message;
    box.append(line);
  }
  wrapper.classList.add("has-error");
  wrapper.append(box);
  openFolds(wrapper);
  for (const control of wrapper.querySelectorAll("input, select, textarea")) {
    control.setAttribute("aria-invalid", "true");
    const described = new Set((control.getAttribute("aria-describedby") || "").split(" ").filter(Boolean));
    control.setAttribute("aria-describedby", [...described.add(box.id)].join(" "));
  }
}

export function showErrors(form, errors, labels) {
  clear(form);
  const names = Object.keys(errors);
  const holder = document.getElementById("page-errors");
  if (!names.length) {
    holder.replaceChildren();
    return;
  }
  const box = document.createElement("div");
  box.className = "error-summary";
  box.innerHTML = "<h2>Please check</h2>";
  const list = document.createElement("ul");
  for (const name of names) {
    beside(name, errors[name]);
    for (const message of errors[name]) {
      const item = document.createElement("li");
      const link = document.createElement("a");
      link.href = `#div_id_${name}`;
      link.textContent = labels[name] || "Here";
      item.append(link, `: ${message}`);
      list.append(item);
    }
  }
  box.append(list);
  holder.replaceChildren(box);
}

// A link to a field leads into it.
export function watchErrorLinks() {
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#div_id_"]');
    const control = link && document.querySelector(link.getAttribute("href"))?.querySelector("input:not([type=hidden]), select, textarea");
    if (!control) return;
    event.preventDefault();
    openFolds(control);
    control.focus();
    control.scrollIntoView({ block: "center" });
  });
}
