// SPDX-License-Identifier: GPL-3.0-or-later
// A finished English sentence of the core in the person's language, in the same way as words/sentence.c: compared with the texts of the
// catalogue; the one with most letters that fits wholly says it, its values put into the translation and said in turn.
// What fits no text is taken apart at its joints. tests/words/sentences.json holds both to the same answers.

interface Place { kind: string; number: number; length: number }
interface Pattern { english: string; weight: number; longest: string }
interface Steps { left: number }
interface Said { text: string; good: boolean }
interface Values { value: string[]; text: boolean[] }

const placesMost = 16, depthMost = 8, longestMost = 4000, stepsBase = 20000, stepsLetter = 200;
const beforeText = " \n\t,;:", afterText = " \n\t,;:(", joints = ["\n", ". ", "; ", ": "];
const placeAt = /%(?:%|(?:([1-9]\d?)\$)?[-+0#]*[\d*]*(?:\.[\d*]*)?[hlzjt]*([diuoxXfFeEgGcs]))/y;
const wholeAt = / *[-+]?(?:nan|inf|\d+)/y, numberAt = / *[-+]?(?:nan|inf|\d+(?:\.\d+)?(?:e[-+]\d+)?)/y;

function placeOf(format: string, at: number): Place | null {
  placeAt.lastIndex = at;
  const found = placeAt.exec(format);
  return found && { kind: found[2] ?? "%", number: Number(found[1] ?? 0), length: found[0].length };
}

/** Does the text fit the format from these places on? Numbers are as long, texts as short as can be. */
function fits(format: string, f: number, text: string, s: number, values: Values, steps: Steps): boolean {
  while (f < format.length) {
    const place = placeOf(format, f);
    if (--steps.left < 0) return false;
    if (place?.kind === "s") return textFits(format, f + place.length, text, s, values, steps);
    let to = s;
    if (!place || place.kind === "%") to += text[s] === format[f] ? 1 : 0;
    else if (place.kind === "c") to += s < text.length ? 1 : 0;
    else {
      const number = "diu".includes(place.kind) ? wholeAt : numberAt;
      number.lastIndex = s;
      to += number.exec(text)?.[0].length ?? 0;
    }
    if (to === s || (place && place.kind !== "%" && !keep(values, text.slice(s, to), false))) return false;
    f += place?.length ?? 1;
    s = to;
  }
  return s === text.length;
}

function keep(values: Values, value: string, text: boolean): boolean {
  values.text.push(text);
  return values.value.push(value) <= placesMost;
}

function textFits(format: string, f: number, text: string, s: number, values: Values, steps: Steps): boolean {
  const before = values.value.length, place = placeOf(format, f), literal = f < format.length && (!place || place.kind === "%");
  for (let to = f < format.length ? s : text.length; to <= text.length; to++) {
    if (literal && to < text.length) to = text.indexOf(format[f]!, to);
    if (to < 0 || --steps.left < 0) return false;
    values.value.length = values.text.length = before;
    if (!keep(values, text.slice(s, to), true)) return false;
    if (fits(format, f, text, to, values, steps)) return true;
  }
  return false;
}

/** The texts of catalogues, found by their rarest words. */
export class Sentences {
  private texts = new Map<string, string>();
  private anchored = new Map<string, Pattern[]>();

  /** decimal: the sign that numbers get. */
  constructor(private decimal = ".") {}

  add(texts: Record<string, string | string[]>): void {
    for (const [english, said] of Object.entries(texts)) if (typeof said === "string") this.texts.set(english, said);
    const found: (Pattern & { words: string[] })[] = [], seen = new Map<string, number>();
    for (const english of this.texts.keys()) {
      const literal = english.replace(/%(?:%|[-+0#]*[\d*]*(?:\.[\d*]*)?[hlzjt]*[diuoxXfFeEgGcs])/g, "\0");
      const weight = literal.replace(/[^A-Za-z]/g, "").length;
      if (literal === english || weight < 4) continue;
      const words = literal.split(/[^A-Za-z\0]+/).filter((word) => word && !word.includes("\0"));
      for (const word of new Set(words)) seen.set(word, (seen.get(word) ?? 0) + 1);
      const longest = literal.split(/[\0%]/).sort((a, b) => b.length - a.length)[0]!;
      found.push({ english, weight, longest, words });
    }
    this.anchored.clear();
    for (const { words, ...pattern } of found) {
      const anchor = words.sort((a, b) => seen.get(a)! - seen.get(b)! || b.length - a.length)[0];
      if (anchor) this.anchored.set(anchor, [...(this.anchored.get(anchor) ?? []), pattern]);
    }
  }

  exact(english: string): string | undefined {
    return this.texts.get(english);
  }

  say(sentence: string): string {
    return this.texts.size ? this.piece(sentence, 0, { left: stepsBase + stepsLetter * sentence.length }).text : sentence;
  }

  private piece(text: string, depth: number, steps: Steps): Said {
    let from = 0, to = text.length;
    while (from < to && beforeText.includes(text[from]!)) from++;
    while (to > from && afterText.includes(text[to - 1]!)) to--;
    const inner = text.slice(from, to), wordless = !/[A-Za-z]{2}/.test(inner);
    if (wordless || depth > depthMost || steps.left < 0) return { text, good: wordless };
    const known = this.known(inner, depth, steps) ?? this.ends(inner, depth, steps);
    const said = known === null ? this.apart(inner, depth, steps) : { text: known, good: true };
    return { text: text.slice(0, from) + said.text + text.slice(to), good: said.good };
  }

  private known(text: string, depth: number, steps: Steps): string | null {
    if (text.length > longestMost) return null; // no sentence
    const said = this.texts.get(text);
    if (said !== undefined) return said;
    let best: Pattern | null = null, values: Values | null = null;
    for (const word of text.match(/[A-Za-z]+/g) ?? [])
      for (const one of this.anchored.get(word) ?? []) {
        if (best && (one.weight < best.weight || (one.weight === best.weight && one.english >= best.english))) continue;
        steps.left -= 1 + text.length / 8;
        if (steps.left < 0) return null;
        if (!text.includes(one.longest)) continue; // as good as all end here
        const found: Values = { value: [], text: [] };
        if (fits(one.english, 0, text, 0, found, steps)) [best, values] = [one, found];
      }
    return best && values && this.fill(this.texts.get(best.english)!, values, depth, steps);
  }

  private fill(said: string, values: Values, depth: number, steps: Steps): string {
    let out = "", next = 0;
    for (let at = 0; at < said.length;) {
      const place = placeOf(said, at);
      if (!place || place.kind === "%") out += said[at];
      else {
        const i = place.number ? place.number - 1 : next++, value = values.value[i] ?? "";
        out += values.text[i] ? this.piece(value, depth + 1, steps).text : value.replace(".", this.decimal);
      }
      at += place?.length ?? 1;
    }
    return out;
  }

  private ends(text: string, depth: number, steps: Steps): string | null {
    const said = text.length > 1 && text.endsWith(".") ? this.known(text.slice(0, -1), depth, steps) : null;
    return said === null ? null : `${said}.`;
  }

  /** Commas and brackets part what belongs together: there either all pieces are known or the text stays as it is. */
  private apart(text: string, depth: number, steps: Steps): Said {
    const say = (piece: string): Said => this.piece(piece, depth + 1, steps);
    const whole = (pieces: string[], glue: string): Said => {
      const said = pieces.map(say);
      return { text: said.map((one) => one.text).join(glue), good: said.every((one) => one.good) };
    };
    const joint = joints.find((one) => text.includes(one));
    if (joint === ". ") return whole(text.split(". ").map((one, i, all) => (i < all.length - 1 ? `${one}.` : one)), " ");
    if (joint) return whole(text.split(joint), joint);
    const open = text.indexOf("("), close = open < 0 ? -1 : text.indexOf(")", open);
    let said: Said = { text, good: false };
    if (text.includes(", ")) said = whole(text.split(", "), ", ");
    else if (close >= 0) {
      const [a, b, c] = [say(text.slice(0, open)), say(text.slice(open + 1, close)), say(text.slice(close + 1))];
      said = { text: `${a.text}(${b.text})${c.text}`, good: a.good && b.good && c.good };
    } else if (/^\d/.test(text) && text.includes(" ")) { // "0.9 of the draws"
      const space = text.indexOf(" "), rest = say(text.slice(space));
      said = { text: text.slice(0, space).replace(".", this.decimal) + rest.text, good: rest.good };
    }
    return said.good ? said : { text, good: false };
  }
}
