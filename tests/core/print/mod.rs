mod bands;
