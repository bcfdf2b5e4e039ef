refuse = (relation, argument, value, low, high) => {
  const allowed = high === Infinity ? `${low} or more` : low === -Infinity ? `${high} or less` : `${low} to ${high}`;
  throw new DomainError(`${relation}: ${argument} is ${value}; ${allowed} is possible, and finite`);
};
