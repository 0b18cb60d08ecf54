// What cannot wait is shown in the bar at the foot, wherever the page is scrolled to.

const ALARMING = new Set(["emergency", "same_day", "telephone"]);

// Without a plan (the chart contradicts itself) the last alarm stays: nothing has lifted it.
export function showAlarm(plan, { urgency, headline }) {
  const alarm = document.getElementById("alarm");
  if (!urgency || (plan.dataset.urgency === urgency && alarm.textContent.trim() === headline)) return;
  plan.dataset.urgency = urgency;
  if (!ALARMING.has(urgency)) return alarm.replaceChildren();
  const link = document.createElement("a");
  link.href = "#plan";
  link.className = `urgency-${urgency}`;
  link.textContent = headline;
  alarm.replaceChildren(link);
}
