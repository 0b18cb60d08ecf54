// The trend page: exact values under pointer and keys, and two pictures to compare. Without
// scripts the values are in the table and the pictures side by side.

import { watchMarks } from "./trend-marks.js";
import { comparePhotos } from "./trend-photos.js";

for (const figure of document.querySelectorAll("[data-trend]")) watchMarks(figure);
for (const hint of document.querySelectorAll(".trend-hint")) hint.hidden = false;
for (const photos of document.querySelectorAll("[data-compare]")) comparePhotos(photos);

// The link to the table opens it.
for (const link of document.querySelectorAll('a[href="#values"]')) {
  link.addEventListener("click", () => {
    document.getElementById("values").open = true;
  });
}
