/**
 * Stands before the theme's search worker: weighs the words of a query by how few sections have them, so that `string`,
 * which stands everywhere, does not drown `slipped`.
 */
(() => {
  const scope = /** @type {any} */ (self);
  const PREFIX = 5; // a word as it is weighs so many times one that only begins with it
  const SMALL = 2; // and so many times a small one: `my`, `is`, `too`

  /**
   * Return a query in the index's own language, every word with its weight. A small word that no heading and no everyday
   * name has weighs nothing. What has the theme's own signs in it is left to the theme.
   * @param {string} query @param {{ invertedIndex: Record<string, any> }} index @param {number} sections
   */
  function weighed(query, { invertedIndex }, sections) {
    if (/["~^*:]|(^|\s)[+-]/.test(query)) return undefined;
    /** @param {string} word */
    const small = (word) => !scope.lunr.stopWordFilter(word);
    /** @param {string} word */
    const found = (word) => Object.hasOwn(invertedIndex, word) ? invertedIndex[word] : {};
    /** @param {string} word */
    const heads = (word) => Object.keys({ ...found(word).title, ...found(word).names }).length > 0;
    const words = query.toLowerCase().replaceAll('’', "'").split(scope.lunr.tokenizer.separator).filter(Boolean);
    const telling = words.filter((word) => !small(word) || heads(word));
    return (telling.length ? telling : words).map((word) => {
      const having = Object.keys({ ...found(word).title, ...found(word).text, ...found(word).names }).length;
      const weight = 1 + Math.round(100 * Math.log(sections / (having || 1)) / (small(word) ? SMALL : 1));
      return having ? `${word}^${weight} ${word}*^${Math.ceil(weight / PREFIX)}` : `${word}*^${weight}`;
    }).join(' ');
  }

  scope.weighed = weighed;
})();
