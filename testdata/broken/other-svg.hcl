<?xml version="1.0"?>
<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"></svg>
