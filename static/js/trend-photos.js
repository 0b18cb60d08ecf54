// Two pictures of one stoma: chosen without leaving the page, side by side or one over the other
// with a slider. The slider is the browser's own, so that keys work; buttons spare dragging.

export function comparePhotos(section) {
  const stage = section.querySelector("[data-stage]");
  const range = section.querySelector("input[type=range]");
  const slide = section.querySelector("[data-slide]");

  const cut = () => {
    stage.style.setProperty("--seam", `${100 - range.value}%`);
    range.setAttribute("aria-valuetext", `${range.value} % of the second picture`);
  };
  range.addEventListener("input", cut);
  for (const button of section.querySelectorAll("[data-share]")) {
    button.addEventListener("click", () => {
      range.value = button.dataset.share;
      cut();
    });
  }

  const ways = [...section.querySelectorAll("[data-way]")];
  for (const button of ways) {
    button.addEventListener("click", () => {
      const over = button.dataset.way === "over";
      stage.classList.toggle("over", over);
      slide.hidden = !over;
      for (const other of ways) other.setAttribute("aria-pressed", String(other === button));
    });
  }

  for (const select of section.querySelectorAll("select")) {
    select.addEventListener("change", () => show(section, select));
  }
  section.querySelector("[data-plain]").hidden = true;
  section.querySelector("[data-tools]").hidden = false;
  cut();
}

function show(section, select) {
  const { side } = select.dataset;
  const option = select.selectedOptions[0];
  const figure = section.querySelector(`figure[data-side=${side}]`);
  const picture = figure.querySelector("img");
  picture.removeAttribute("width");
  picture.removeAttribute("height");
  picture.src = option.dataset.url;
  picture.alt = `${side === "first" ? "First" : "Second"} picture: ${option.textContent}`;
  figure.querySelector("[data-words]").textContent = option.textContent;
}
