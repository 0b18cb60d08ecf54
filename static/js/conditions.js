// Which answers make something matter. "field=value,value" (any of them), "field=*" (anything but
// none), "field>=number"; several with " or " between them. The server reads the same words.

const NOTHING = new Set(["", "none"]);

function holds(part, data) {
  if (part.includes(">=")) {
    const [name, least] = part.split(">=");
    return data.getAll(name).some((value) => Number.parseFloat(value.replace(",", ".")) >= Number(least));
  }
  const [name, wanted] = part.split("=");
  const given = data.getAll(name);
  if (wanted === "*") return given.some((value) => !NOTHING.has(value));
  return given.some((value) => wanted.split(",").includes(value));
}

export function isMet(condition, data) {
  return condition.split(" or ").some((part) => holds(part, data));
}
